namespace Nursery.Domain.Refusals;

/// <summary>Values outside what is allowed.</summary>
public sealed class InvalidFields(IReadOnlyList<FieldError> errors) : Refusal(Sentence(errors))
{
    public InvalidFields(string field, string? value, string allowed) : this([new FieldError(field, value, allowed)])
    {
    }

    public override RefusalKind Kind => RefusalKind.Rule;

    public override IReadOnlyList<FieldError> Errors => errors;

    private static string Sentence(IReadOnlyList<FieldError> errors)
    {
        var first = errors[0];
        var where = first.Line is { } line ? $"Line {line}: " : "";
        var more = errors.Count > 1 ? $" (and {errors.Count - 1} more)" : "";
        return $"{where}{first.Field} is '{first.Value}'; allowed: {first.Allowed}{more}";
    }
}
