using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>Lines of an import break rules; nothing of the file was stored.</summary>
public sealed class SetupLinesRefused(SetupImport result) : Refusal(Sentence(result))
{
    public override RefusalKind Kind => RefusalKind.Rule;

    public override IReadOnlyList<FieldError> Errors => result.Errors;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["dryRun"] = result.DryRun,
        ["rows"] = result.Rows,
        ["created"] = 0,
    };

    private static string Sentence(SetupImport result)
    {
        var first = result.Errors[0];
        var more = result.Errors.Count > 1 ? $" (and {result.Errors.Count - 1} more)" : "";
        return $"Nothing was stored. Line {first.Line}: {first.Field} is '{first.Value}'; allowed: {first.Allowed}{more}";
    }
}
