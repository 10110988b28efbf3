using Nursery.Agronomy.Patching;
using Nursery.Application.Batches;

namespace Nursery.Application.Patching;

/// <summary>A batch whose trays can be patched or merged.</summary>
/// <param name="Row">The batch.</param>
/// <param name="Counted">What stands in its trays.</param>
/// <param name="Plans">By number of trays that go, none first.</param>
internal sealed record PatchableBatch(BatchRow Row, CountedTrays Counted, IReadOnlyList<PatchPlan> Plans)
{
    /// <summary>The plan to print: another tray goes as long as that takes no more than half a tray of moves (from memory).</summary>
    public PatchPlan Chosen
    {
        get
        {
            var most = Row.TraySet.CellsPerTray / 2;
            var index = 0;
            while (index + 1 < Plans.Count && Plans[index + 1].Seedlings - Plans[index].Seedlings <= most)
            {
                index++;
            }

            return Plans[index];
        }
    }

    /// <summary>Tray spaces that are free when the trays of a plan are gone.</summary>
    public int SpacesFreed(PatchPlan plan) => Row.TraySet.SpacesFor(Counted.Trays.Count) - Row.TraySet.SpacesFor(Counted.Trays.Count - plan.Emptied.Count);
}
