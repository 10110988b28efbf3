using System.Text.Json.Serialization;
using Nursery.Application.Rounds;
using Nursery.Web.Api.Problems;

namespace Nursery.Web.Api.Rounds;

/// <summary>What became of each entry, in the order they were sent.</summary>
internal sealed record LedgerAnswer(IReadOnlyList<LedgerAnswerItem> Results)
{
    public static LedgerAnswer From(IReadOnlyList<EntryResult> results, HttpContext http) => new(
        [
            .. results.Select(result => new LedgerAnswerItem(
                result.Id, result.Outcome, result.Problem is { } refusal ? ApiProblem.Of(refusal, http) : null)),
        ]);
}

internal sealed record LedgerAnswerItem(
    Guid Id,
    EntryOutcome Outcome,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] ApiProblem? Problem = null);
