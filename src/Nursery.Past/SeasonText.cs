using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Nursery.Past;

/// <summary>A season as text, the same bytes on every machine.</summary>
public static class SeasonText
{
    private static readonly JsonSerializerOptions Indented = new(JsonSerializerDefaults.Web) { WriteIndented = true, NewLine = "\n" };

    /// <summary>The truth, as JSON.</summary>
    public static string Truth(PastSeason season) => JsonSerializer.Serialize(season.Truth, Indented) + "\n";

    /// <summary>The batches, as CSV.</summary>
    public static string Batches(PastSeason season)
    {
        var text = new StringBuilder(
            "number,variety,lot,trays,cells_per_tray,seeds_per_cell,sow_on,ordered_on,order,customer,plants,zone,heat,growing,hardening\n");
        foreach (var batch in season.Batches)
        {
            text.Append(CultureInfo.InvariantCulture, $"{batch.Number},{batch.Variety},{batch.Lot},{batch.Trays},{batch.CellsPerTray},")
                .Append(CultureInfo.InvariantCulture, $"{batch.SeedsPerCell},{batch.SowOn},{batch.OrderedOn},{batch.Order},{Quoted(batch.Customer)},{batch.Plants},")
                .Append(CultureInfo.InvariantCulture, $"{batch.Zone},{Place(batch.Heat)},{Place(batch.Growing)},{Place(batch.Hardening)}\n");
        }

        return text.ToString();
    }

    /// <summary>What people reported, as CSV.</summary>
    public static string Entries(PastSeason season)
    {
        var text = new StringBuilder("day,minute,worker,batch,work,value,trays,word,bench\n");
        foreach (var entry in season.Entries)
        {
            text.Append(CultureInfo.InvariantCulture, $"{entry.Day},{entry.Minute},{entry.Worker},{entry.Batch},{entry.Work},")
                .Append(CultureInfo.InvariantCulture, $"{entry.Value},{entry.Trays},{entry.Word},{entry.Bench}\n");
        }

        return text.ToString();
    }

    private static string Quoted(string text) => "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";

    private static string Place(PastHeld held) =>
        string.Create(CultureInfo.InvariantCulture, $"{held.Bench}:{held.FirstSpace}:{held.From}:{held.To}");
}
