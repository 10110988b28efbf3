using System.Runtime.InteropServices;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>A plan under work: who stands where, what is free, what it costs. Everything is kept up to date by
/// <see cref="Put"/> and <see cref="Take"/>; zones are priced again by <see cref="ZoneBook.Settle"/>.</summary>
internal sealed class Season
{
    public readonly SeasonModel Model;
    public readonly DailyLoads Loads;
    public readonly SpaceBits Bits;
    public readonly ZoneBook Zones;
    public readonly Place[] Places;
    private readonly List<int>[] _inArea;
    private readonly int[] _slotInZone;
    private readonly int[] _slotOnBench;
    private readonly List<int> _unplaced = [];
    private readonly int[] _slotUnplaced;
    private readonly int _hardening;
    private long _batchCost;

    public Season(SeasonModel model)
    {
        Model = model;
        _hardening = model.Areas;
        Loads = new DailyLoads(model.Areas + 3, model.Days);
        Bits = new SpaceBits(model.Spaces, model.Days);
        Zones = new ZoneBook(model);
        Places = new Place[model.Batches.Count];
        Array.Fill(Places, Place.None);
        _inArea = [.. Enumerable.Range(0, model.Areas).Select(_ => new List<int>())];
        _slotInZone = new int[Places.Length];
        _slotOnBench = new int[Places.Length];
        _slotUnplaced = new int[Places.Length];
        for (var batch = 0; batch < Places.Length; batch++)
        {
            _batchCost += model.UnplacedCost(batch);
            _slotUnplaced[batch] = batch;
            _unplaced.Add(batch);
        }

        HoldFrozen();
    }

    /// <summary>Cents, once the zones are settled.</summary>
    public long Cost => _batchCost + Zones.Total;

    public ReadOnlySpan<int> InArea(int area) => CollectionsMarshal.AsSpan(_inArea[area]);

    public ReadOnlySpan<int> Unplaced => CollectionsMarshal.AsSpan(_unplaced);

    public int Hardening => _hardening;

    /// <summary>Row of what the benches of a band carry together, frozen trays left out.</summary>
    public int Band(BenchUse band) => _hardening + (band == BenchUse.Warm ? 1 : 2);

    /// <summary>Whether the benches of a band together have room; when not, none has.</summary>
    public bool HasRoom(BenchUse band, int emerge, int spacing, int harden, int before, int after)
    {
        var spaces = Model.BandSpaces(band);
        return spaces > DailyLoads.Most
            || (Loads.AtMost(Band(band), emerge, spacing, spaces - before) && Loads.AtMost(Band(band), spacing, harden, spaces - after));
    }

    public bool IsPlaced(int batch) => Places[batch].Mode >= 0;

    public void Put(int batch, in Place place)
    {
        Places[batch] = place;
        _batchCost += Model.Modes.Cost[place.Mode] + place.Extra - Model.UnplacedCost(batch);
        Hold(batch, place, taken: true);
        _slotInZone[batch] = Join(_inArea[place.Zone], batch);
        _slotOnBench[batch] = Join(_inArea[place.Bench], batch);
        Leave(_unplaced, _slotUnplaced[batch], _slotUnplaced);
    }

    public Place Take(int batch)
    {
        var place = Places[batch];
        Places[batch] = Place.None;
        _batchCost -= Model.Modes.Cost[place.Mode] + place.Extra - Model.UnplacedCost(batch);
        Hold(batch, place, taken: false);
        Leave(_inArea[place.Zone], _slotInZone[batch], _slotInZone);
        Leave(_inArea[place.Bench], _slotOnBench[batch], _slotOnBench);
        _slotUnplaced[batch] = Join(_unplaced, batch);
        return place;
    }

    private static int Join(List<int> list, int batch)
    {
        list.Add(batch);
        return list.Count - 1;
    }

    private static void Leave(List<int> list, int slot, int[] slots)
    {
        var last = list[^1];
        list[slot] = last;
        slots[last] = slot;
        list.RemoveAt(list.Count - 1);
    }

    private void Hold(int batch, Place place, bool taken)
    {
        var modes = Model.Modes;
        int sow = modes.Sow[place.Mode], emerge = modes.Emerge[place.Mode], ready = modes.Ready[place.Mode];
        var harden = ready - Model.HardeningDays;
        var spacing = emerge + ((harden - emerge) / 2);
        Loads.Add(_hardening, harden, ready, taken ? Model.After[batch] : -Model.After[batch]);
        if (place.Parts is null)
        {
            HoldHeat(place.Zone, place.ZoneFirst, Model.Before[batch]);
            HoldBench(new Run(
                place.Bench, place.BenchFirst, (short)Model.Before[batch], place.BenchFirstAfter, (short)Model.After[batch]));
            Lock(place.Zone);
            return;
        }

        foreach (var run in place.Parts.Heat)
        {
            HoldHeat(run.Area, run.First, run.Count);
            Lock(run.Area);
        }

        foreach (var run in place.Parts.Benches)
        {
            HoldBench(run);
        }

        void Lock(int zone)
        {
            if (taken)
            {
                Zones.Lock(zone, modes.Level[place.Mode], sow / 7, (emerge - 1) / 7);
            }
            else
            {
                Zones.Unlock(zone, sow / 7, (emerge - 1) / 7);
            }
        }

        void HoldHeat(int zone, int first, int count)
        {
            Loads.Add(zone, sow, emerge, taken ? count : -count);
            Bits.Set(zone, sow, emerge, first, count, taken);
        }

        void HoldBench(Run run)
        {
            Loads.Add(run.Area, emerge, spacing, taken ? run.Count : -run.Count);
            Loads.Add(run.Area, spacing, harden, taken ? run.CountAfter : -run.CountAfter);
            if (Model.BandSpaces(modes.Band[place.Mode]) <= DailyLoads.Most)
            {
                Loads.Add(Band(modes.Band[place.Mode]), emerge, spacing, taken ? run.Count : -run.Count);
                Loads.Add(Band(modes.Band[place.Mode]), spacing, harden, taken ? run.CountAfter : -run.CountAfter);
            }

            Bits.Set(run.Area, emerge, spacing, run.First, run.Count, taken);
            Bits.Set(run.Area, spacing, harden, run.FirstAfter, run.CountAfter, taken);
        }
    }

    private void HoldFrozen()
    {
        var problem = Model.Problem;
        foreach (var stay in problem.Frozen ?? [])
        {
            var area = stay.Where == FrozenWhere.Hardening ? _hardening : Array.IndexOf(Model.AreaId, stay.Where);
            HoldDays(area, stay.From, stay.To, stay.FirstSpace - 1, stay.Spaces);
        }

        foreach (var bench in problem.Benches.Where(bench => bench.OutOfUse != null))
        {
            HoldWhole(bench.Id, bench.OutOfUse!);
            foreach (var zone in problem.Zones.Where(zone => zone.Bench == bench.Id))
            {
                HoldWhole(zone.Id, bench.OutOfUse!);
            }
        }

        foreach (var zone in problem.Zones.Where(zone => zone.OutOfUse != null))
        {
            HoldWhole(zone.Id, zone.OutOfUse!);
        }
    }

    private void HoldWhole(string id, IReadOnlyList<OutOfUse> spans)
    {
        var area = Array.IndexOf(Model.AreaId, id);
        foreach (var span in spans)
        {
            if (area >= 0)
            {
                HoldDays(area, span.From, span.To, 0, Model.Spaces[area]);
            }
        }
    }

    private void HoldDays(int area, DateOnly from, DateOnly to, int first, int spaces)
    {
        var firstDay = Math.Max(0, Model.Problem.DayOf(from));
        var end = Math.Min(Model.Days, Model.Problem.DayOf(to));
        if (area < 0 || end <= firstDay)
        {
            return;
        }

        // Two holds may lie over each other here (trays on a bench that is out of use): the day is as full as it can be.
        for (var day = firstDay; day < end; day++)
        {
            var most = area == _hardening ? short.MaxValue / 2 : Model.Spaces[area];
            Loads.Add(area, day, day + 1, Math.Min(spaces, most - Math.Min(most, Loads.On(area, day))));
        }

        if (area != _hardening)
        {
            Bits.Set(area, firstDay, end, first, spaces, taken: true);
        }
    }
}
