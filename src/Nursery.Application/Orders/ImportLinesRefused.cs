using Nursery.Domain.Refusals;

namespace Nursery.Application.Orders;

/// <summary>Lines of an import break rules; nothing of the file was stored.</summary>
public sealed class ImportLinesRefused(ImportResult result) : Refusal(Sentence(result))
{
    public override RefusalKind Kind => RefusalKind.Rule;

    public override IReadOnlyList<FieldError> Errors => result.Errors;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["dryRun"] = result.DryRun,
        ["rows"] = result.Rows,
        ["created"] = result.Created,
    };

    private static string Sentence(ImportResult result)
    {
        var first = result.Errors[0];
        var more = result.Errors.Count > 1 ? $" (and {result.Errors.Count - 1} more)" : "";
        return $"Nothing was stored. Line {first.Line}: {first.Field} is '{first.Value}'; allowed: {first.Allowed}{more}";
    }
}
