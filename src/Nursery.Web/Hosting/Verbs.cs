using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>What the one executable can be told to do; serve when told nothing.</summary>
internal static class Verbs
{
    private const int Refused = 2;

    public static async Task<int> RunAsync(string[] args)
    {
        var verb = args.Length > 0 && !args[0].StartsWith('-') ? args[0] : "serve";
        var rest = args.Length > 0 && args[0] == verb ? args[1..] : args;
        try
        {
            return verb switch
            {
                "serve" => await ServeVerb.RunAsync(rest),
                "migrate" => await MigrateVerb.RunAsync(rest),
                "user" => await UserVerb.RunAsync(rest),
                "past" => await PastVerb.RunAsync(rest),
                "plan" => await PlanVerb.RunAsync(rest),
                _ => Unknown(verb),
            };
        }
        catch (StartRefused refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return Refused;
        }
    }

    private static int Unknown(string verb)
    {
        Console.Error.WriteLine($"'{verb}' is not something Nursery does; it does: serve, migrate, user, past, plan");
        return Refused;
    }
}
