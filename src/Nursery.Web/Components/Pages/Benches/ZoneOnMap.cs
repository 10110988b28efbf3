using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A heat zone as it is drawn: a warm border and a plate.</summary>
public sealed class ZoneOnMap(HouseZone zone, string outline)
{
    public HouseZone Zone { get; } = zone;

    public string Outline { get; } = outline;

    public Label? Plate { get; set; }
}
