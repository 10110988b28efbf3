using Nursery.Planning.Changes;

namespace Nursery.Planning.Repairs;

/// <summary>A way out that was tried: the plan with it was made.</summary>
/// <param name="Changes">What would be changed.</param>
/// <param name="Sentence">What it takes and what it gives.</param>
/// <param name="Price">Cents: what the plan costs more, trays without a place left out, and the rent; may be below 0.</param>
/// <param name="TraysMore">Trays that get a place by it.</param>
/// <param name="Planned">The plan that shows it.</param>
public sealed record Repair(IReadOnlyList<SeasonChange> Changes, string Sentence, long Price, int TraysMore, Planned Planned);

/// <summary>Why a plan leaves trays out, and what helps.</summary>
/// <param name="Proofs">Empty when nothing is proved: then no space was found, which does not mean that there is none.</param>
/// <param name="Repairs">Each confirmed by a plan, cheapest a tray first.</param>
public sealed record WayOut(IReadOnlyList<Shortage> Proofs, IReadOnlyList<Repair> Repairs)
{
    public string Sentence => Proofs.Count > 0
        ? string.Join(" ", Proofs.Select(proof => proof.Sentence))
        : "I found no space for them; that is no proof that there is none.";
}
