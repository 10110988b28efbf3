using Nursery.Domain.Refusals;

namespace Nursery.Application;

/// <summary>Lines of an import break rules; nothing of the file was stored.</summary>
public sealed class ImportLinesRefused(bool dryRun, int rows, IReadOnlyList<FieldError> errors) : Refusal(Sentence(errors))
{
    public override RefusalKind Kind => RefusalKind.Rule;

    public override IReadOnlyList<FieldError> Errors => errors;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["dryRun"] = dryRun,
        ["rows"] = rows,
        ["created"] = 0,
    };

    private static string Sentence(IReadOnlyList<FieldError> errors)
    {
        var first = errors[0];
        var more = errors.Count > 1 ? $" (and {errors.Count - 1} more)" : "";
        return $"Nothing was stored. Line {first.Line}: {first.Field} is '{first.Value}'; allowed: {first.Allowed}{more}";
    }
}
