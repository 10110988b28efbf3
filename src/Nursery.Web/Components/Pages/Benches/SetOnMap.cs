namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A tray set as it is drawn: all its trays in one path.</summary>
public sealed class SetOnMap(TraySetOnBench set, string path)
{
    public TraySetOnBench Set { get; } = set;

    public string Path { get; } = path;

    public Label? Label { get; set; }
}
