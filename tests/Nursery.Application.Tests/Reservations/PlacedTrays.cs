using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.TraySets;
using Nursery.Testing.Nurseries;

namespace Nursery.Application.Tests.Reservations;

/// <summary>The oracle of placing: which tray lies on which space on which day, one entry each, without runs or spans.</summary>
internal sealed class PlacedTrays : IEquatable<PlacedTrays>
{
    private readonly Dictionary<(Id<Bench> Bench, int Space, LocalDate Day), (Id<TraySet> Set, int Tray)> _cells;

    private PlacedTrays(Dictionary<(Id<Bench>, int, LocalDate), (Id<TraySet>, int)> cells) => _cells = cells;

    public PlacedTrays() : this([])
    {
    }

    /// <summary>What the database holds for a site.</summary>
    /// <exception cref="ArgumentException">Two trays on one space on one day.</exception>
    public static async Task<PlacedTrays> ReadAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var placed = new PlacedTrays();
        foreach (var row in await rows.Reservations.AsNoTracking().Where(row => row.SiteId == nursery.At.Site.Id).ToListAsync())
        {
            placed.Put(row.BenchId, row.Spaces.First, row.TraySetId, row.Trays, row.Days.Start, row.To);
        }

        return placed;
    }

    public PlacedTrays Copy() => new(new(_cells));

    public void Put(Id<Bench> bench, int firstSpace, Id<TraySet> set, SpaceRun trays, LocalDate from, LocalDate to)
    {
        for (var day = from; day < to; day = day.PlusDays(1))
        {
            for (var tray = 0; tray < trays.Count; tray++)
            {
                _cells.Add((bench, firstSpace + tray, day), (set, trays.First + tray));
            }
        }
    }

    /// <summary>Clears spaces, from a day to the first day they stay as they are.</summary>
    public void Take(Id<Bench> bench, SpaceRun spaces, LocalDate from, LocalDate to)
    {
        foreach (var cell in _cells.Keys.Where(cell => cell.Bench == bench && cell.Space >= spaces.First && cell.Space <= spaces.Last
            && cell.Day >= from && cell.Day < to).ToList())
        {
            _cells.Remove(cell);
        }
    }

    public void TakeAll(Id<TraySet> set, LocalDate from)
    {
        foreach (var cell in _cells.Where(cell => cell.Value.Set == set && cell.Key.Day >= from).ToList())
        {
            _cells.Remove(cell.Key);
        }
    }

    public void TakeTray(Id<TraySet> set, int tray, LocalDate from)
    {
        foreach (var cell in _cells.Where(cell => cell.Value == (set, tray) && cell.Key.Day >= from).ToList())
        {
            _cells.Remove(cell.Key);
        }
    }

    public bool IsFree(Id<Bench> bench, SpaceRun run, LocalDate from, LocalDate to) => !_cells.Keys.Any(
        cell => cell.Bench == bench && cell.Space >= run.First && cell.Space <= run.Last && cell.Day >= from && cell.Day < to);

    public bool HasRoom(Bench bench, int spaces, LocalDate from, LocalDate to) => Enumerable.Range(1, Math.Max(0, bench.Capacity - spaces + 1))
        .Any(first => IsFree(bench.Id, new SpaceRun(first, spaces), from, to));

    public int Beyond(IEnumerable<Bench> benches)
    {
        var capacity = benches.ToDictionary(bench => bench.Id, bench => bench.Capacity);
        return _cells.Keys.Count(cell => cell.Space < 1 || cell.Space > capacity[cell.Bench]);
    }

    public PlacedTrays Before(LocalDate day) => new(_cells.Where(cell => cell.Key.Day < day).ToDictionary());

    public bool Equals(PlacedTrays? other) => other is not null && _cells.Count == other._cells.Count
        && _cells.All(cell => other._cells.TryGetValue(cell.Key, out var tray) && tray == cell.Value);

    public override bool Equals(object? obj) => Equals(obj as PlacedTrays);

    public override int GetHashCode() => _cells.Count;

    public override string ToString() => $"{_cells.Count} trays × days";
}
