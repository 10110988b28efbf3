using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy;
using Nursery.Agronomy.Mix;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>How much growing mix batches take: of the tray's own type where its cells are measured, else as published for the number of cells.</summary>
internal sealed class MixNeeds
{
    private const double UsualPackageLiters = 107;
    private const double UsualExpansion = 2;
    private const string Memory = "from memory";
    private const string OfSite = "Setup, site";

    private readonly Site _site;
    private readonly IReadOnlyList<MixAmendment> _recipe;
    private readonly Dictionary<Id<TrayType>, (string Code, decimal Milliliters)> _types;

    private MixNeeds(Site site, Dictionary<Id<TrayType>, (string Code, decimal Milliliters)> types) =>
        (_site, _types, _recipe) = (site, types, MixRecipe.Read(site.MixAmendments) ?? []);

    public static async Task<MixNeeds> LoadAsync(NurseryDbContext database, Site site, CancellationToken cancellation) => new(
        site,
        await database.TrayTypes.Where(row => row.CellVolumeMl != null)
            .ToDictionaryAsync(row => row.Id, row => (row.Code, row.CellVolumeMl!.Value), cancellation));

    /// <summary>Liters for the batch's own cells; null where nobody knows the cells.</summary>
    public double? LitersOf(BatchRow row) => CellOf(row.TraySet) is { } cell ? LitersOf(row.Batch.Cells, cell.Milliliters) : null;

    /// <summary>Null when there is nothing to fill.</summary>
    public MixNeed? Of(IReadOnlyCollection<BatchRow> rows)
    {
        if (rows.Count == 0)
        {
            return null;
        }

        var trays = rows.Select(row => (row, Cell: CellOf(row.TraySet))).Where(item => item.Cell is not null)
            .GroupBy(item => (item.row.TraySet.CellsPerTray, item.Cell!.Value.Milliliters, item.Cell.Value.From))
            .OrderBy(group => group.Key.CellsPerTray)
            .Select(group => (group.Key, Cells: group.Sum(item => item.row.Batch.Cells)))
            .Select(group => new MixTrays(
                group.Key.CellsPerTray, group.Cells, group.Key.Milliliters, group.Key.From, LitersOf(group.Cells, group.Key.Milliliters)))
            .ToList();
        var mix = MixVolume.With(new Volume(trays.Sum(size => size.Liters)), _recipe);
        var (package, expansion) = ((double?)_site.MixPackageLiters ?? UsualPackageLiters, (double?)_site.MixExpansion ?? UsualExpansion);
        return new MixNeed(
            mix.Volume.Liters,
            mix.PackagesOf(new Volume(package), expansion),
            package,
            trays,
            [.. mix.Amendments.Select((amendment, index) => new MixedIn(amendment.Name, _recipe[index].Rate.Grams, amendment.Mass.Grams))],
            rows.Where(row => CellOf(row.TraySet) is null).DistinctBy(row => row.TraySet.Id).Sum(row => row.TraySet.Trays),
            HowOf(trays, mix.Volume.Liters, package, expansion));
    }

    private How HowOf(List<MixTrays> trays, double liters, double package, double expansion) => new(
        "growing mix",
        string.Create(CultureInfo.InvariantCulture, $"cells × cell volume × (1 + settling) × (1 + waste) = {liters:0.0} L; amendments: rate × volume; bales: volume ÷ (bale × expansion), rounded up"),
        [
            .. trays.SelectMany(size => new[]
            {
                HowInput.Of($"cells of {size.CellsPerTray} a tray", size.Cells, "0", "", "the plan"),
                HowInput.Of("one of them", size.CellMilliliters, "0.#", "mL", size.From),
            }),
            HowInput.Of("settling", MixVolume.UsualSettling * 100, "0", "%", Memory),
            HowInput.Of("waste", MixVolume.UsualWaste * 100, "0", "%", Memory),
            .. _recipe.Select(amendment => HowInput.Of(amendment.Name, amendment.Rate.Grams, "0.#", "g/m³", OfSite)),
            HowInput.Of("bale as sold", package, "0.#", "L", _site.MixPackageLiters is null ? "3.8 cu ft, common practice, no source" : OfSite),
            HowInput.Of("expansion", expansion, "0.##", "", _site.MixExpansion is null ? Memory : OfSite),
        ],
        "cell volumes: plug-tray transplants, Ontario Ministry of Agriculture, Food and Rural Affairs",
        "docs/agronomy/feed-and-mix.md");

    private (double Milliliters, string From)? CellOf(TraySet traySet) => traySet.TrayTypeId is { } type && _types.TryGetValue(type, out var known)
        ? ((double)known.Milliliters, $"Setup, tray type {known.Code}")
        : traySet.CellsPerTray >= CellVolume.Known[0] && traySet.CellsPerTray <= CellVolume.Known[^1]
            ? (CellVolume.Of(traySet.CellsPerTray).Milliliters, "published, makers differ")
            : null;

    private static double LitersOf(int cells, double milliliters) => cells * MixVolume.Of(
        1, 1, Volume.FromMilliliters(milliliters), new Fraction(MixVolume.UsualSettling), new Fraction(MixVolume.UsualWaste), []).Volume.Liters;
}
