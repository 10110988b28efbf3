using Nursery.Application.People;
using Nursery.Application.Setup;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Hosting;

/// <summary>user add: someone to sign in as, with a password printed once; and a site, when there is none. Also for an
/// administrator who lost their password: the same user gets a new one.</summary>
internal static class UserVerb
{
    private const int Refused = 2;
    private const string Usage =
        "Nursery.Web user add --user U --name N --role administrator|head-grower|staff|manager " +
        "[--site CODE --site-name NAME --zone America/Chicago [--units us|metric] [--currency USD] [--paper letter|a4|roll]]";

    public static async Task<int> RunAsync(string[] args)
    {
        var configuration = new ConfigurationBuilder().AddEnvironmentVariables().AddCommandLine(args.Skip(1).ToArray()).Build();
        if (args is not ["add", ..] || configuration["user"] is null)
        {
            await Console.Error.WriteLineAsync(Usage);
            return Refused;
        }

        using var logging = LoggerFactory.Create(builder => builder.AddConsole().SetMinimumLevel(LogLevel.Warning));
        await using var database = await OpenDatabase.FindAsync(configuration, logging.CreateLogger("Nursery"), owning: false);
        await database.MigrateAsync();
        await using var services = new ServiceCollection().AddLogging().AddNursery(database.Where).BuildServiceProvider();
        try
        {
            var added = await services.GetRequiredService<AddFirstPerson>().HandleAsync(new FirstPersonRequest(Person(configuration), Site(configuration)));
            Console.WriteLine(added.SiteIsNew ? $"The site {added.Site} is made." : $"On the site {added.Site}:");
            Console.WriteLine($"{added.User} signs in with the password {added.Password}");
            Console.WriteLine("It is shown this once. Hand it over yourself; a new one can be given on the page People.");
            return 0;
        }
        catch (Refusal refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return Refused;
        }
    }

    private static Dictionary<string, string> Person(IConfiguration asked) => new()
    {
        ["user"] = asked["user"] ?? "",
        ["name"] = asked["name"] ?? "",
        ["role"] = asked["role"] ?? "administrator",
    };

    private static Dictionary<string, string>? Site(IConfiguration asked) => asked["site"] is not { } code
        ? null
        : new Dictionary<string, string>
        {
            ["code"] = code,
            ["name"] = asked["site-name"] ?? "",
            ["time_zone"] = asked["zone"] ?? "",
            ["units"] = asked["units"] ?? "us",
            ["currency"] = asked["currency"] ?? "USD",
            ["margin_days"] = asked["margin-days"] ?? "7",
            ["paper"] = asked["paper"] ?? "letter",
            ["hands"] = "",
            ["hand_minutes"] = "",
        };
}
