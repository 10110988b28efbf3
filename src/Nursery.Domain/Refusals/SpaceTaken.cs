using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Domain.Refusals;

public sealed class SpaceTaken(string benchCode, SpaceRun asked, string heldBy, LocalDate until)
    : Refusal(string.Create(
        CultureInfo.InvariantCulture,
        $"Spaces {asked} of bench {benchCode} are held by {heldBy} until {until.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}"))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["heldBy"] = heldBy,
        ["until"] = LocalDatePattern.Iso.Format(until),
    };
}
