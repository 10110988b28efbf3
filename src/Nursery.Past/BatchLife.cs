namespace Nursery.Past;

/// <summary>Lives through one batch day by day: what grows is the truth, what people report of it are the entries.</summary>
internal sealed class BatchLife
{
    /// <summary>Minutes of the day: work of the morning in this order, then the watering.</summary>
    private const int Sowing = 480;
    private const int Carrying = 500;
    private const int Looking = 520;
    private const int Counting = 540;
    private const int Losing = 560;
    private const int Tending = 580;
    private const int Watering = 630;

    /// <summary>Trays somebody counts who counts a sample.</summary>
    private const int SampleTrays = 2;

    private readonly PastBatch _batch;
    private readonly PastCrop _crop;
    private readonly PastLot _lot;
    private readonly Crew _crew;
    private readonly Pcg32 _random;
    private readonly List<PastEntry> _entries;
    private readonly Stand _stand;
    private readonly CurveTruth _curve;
    private readonly double _meanHeatC;
    private readonly Climate _climate;
    private readonly (int Day, double Share)? _dampingOff;
    private readonly int? _dropOn;
    private int? _offHeatOn;
    private int? _seenOn;
    private int? _lookedOn;
    private int? _wateredOn;
    private int? _thinnedOn;
    private int? _leavesOn;
    private bool _hardened;
    private int _countsAfterHeat;
    private int _dampedOff;
    private int _dropped;
    private int _thinned;
    private int _unreported;
    private string _cause = "";

    public BatchLife(
        PastBatch batch, PastCrop crop, PastLot lot, CurveTruth curve, Climate climate, bool isCold, Crew crew, List<PastEntry> entries, Pcg32 random)
    {
        (_batch, _crop, _lot, _curve, _climate, _crew, _entries, _random) = (batch, crop, lot, curve, climate, crew, entries, random);
        _meanHeatC = Enumerable.Range(batch.SowOn, crop.HeatDays).Average(day => climate.OnHeat(batch.Zone, day));

        // Seed that lies cold for long comes up thinner.
        var chilled = 1 - (0.4 * Math.Max(0, 0.6 - SeedCurves.Rate(crop, _meanHeatC)));
        _stand = new Stand(batch.Trays, batch.CellsPerTray, batch.SeedsPerCell, lot.Viability * chilled, curve, random);
        if (random.Chance(isCold ? 0.25 : 0.08))
        {
            _dampingOff = (batch.SowOn + crop.HeatDays + 3 + random.Below(8), random.Between(0.04, 0.25));
        }

        if (random.Chance(0.04))
        {
            _dropOn = batch.SowOn + crop.HeatDays + 5 + random.Below(12);
        }
    }

    public BatchTruth Live()
    {
        for (var day = _batch.SowOn; day < 0; day++)
        {
            if (day > _batch.SowOn)
            {
                var celsius = _offHeatOn is null ? _climate.OnHeat(_batch.Zone, day - 1) : Climate.OffHeat(_crop.GrowOn);
                _stand.Warm(SeedCurves.Rate(_crop, celsius), day);
            }

            Suffer(day);
            if (_crew.Comes(day) && Work(day))
            {
                break;
            }
        }

        return new BatchTruth(
            _batch.Number,
            _curve.Name,
            Math.Round((double)_stand.Emerged / _stand.Seeds, 4),
            _stand.MedianDay(_batch.SowOn) ?? 0,
            Math.Round(_meanHeatC, 2),
            _dampedOff,
            _dropped,
            _thinned,
            _stand.Seedlings(0, _batch.Trays),
            _stand.TrayEffects);
    }

    private void Suffer(int day)
    {
        if (_dampingOff is { } damping && damping.Day == day)
        {
            var hit = 1 + _random.Below(_batch.Trays);
            var cells = Math.Max(2, (int)(damping.Share * _batch.CellsPerTray));
            for (var tray = 0; tray < hit; tray++)
            {
                _dampedOff += _stand.Kill(tray, _random.Below(_batch.CellsPerTray - cells + 1), cells, day);
            }

            (_unreported, _cause) = (_dampedOff, "damping off");
        }
        else if (_dropOn == day)
        {
            _dropped = _stand.Kill(_batch.Trays - 1, 0, _batch.CellsPerTray, day);
            (_unreported, _cause) = (_dropped, "tray dropped");
        }
    }

    /// <summary>A day's work on the batch; true once it is gone.</summary>
    private bool Work(int day)
    {
        if (day == _batch.SowOn)
        {
            Tell(day, Sowing, PastWork.Sow);
        }

        Carry(day);
        Look(day);
        if (_unreported > 0)
        {
            Tell(day, Losing, PastWork.Loss, Crew.Miscount(_unreported, _stand.Seeds, _random), word: _cause);
            _unreported = 0;
        }

        Tend(day);
        if (_offHeatOn is not null && day >= _batch.OrderedOn)
        {
            Tell(day, Tending + 10, PastWork.HandOver);
            Tell(day, Watering + 15, PastWork.ClearBench, worker: _crew.Watering(day));
            return true;
        }

        if (_wateredOn is not { } watered || day - watered >= (_offHeatOn is null ? 2 : 1))
        {
            Tell(day, Watering, PastWork.Water, worker: _crew.Watering(day));
            _wateredOn = day;
        }

        return false;
    }

    private void Carry(int day)
    {
        if (_offHeatOn is null && day >= _leavesOn)
        {
            Tell(day, Carrying, PastWork.MoveOffHeat);
            _offHeatOn = day;
        }
        else if (_offHeatOn < day && !_hardened && day >= _batch.Hardening.From)
        {
            Tell(day, Carrying, PastWork.Harden, _batch.Hardening.FirstSpace, bench: _batch.Hardening.Bench);
            _hardened = true;
        }
    }

    private void Look(int day)
    {
        var age = day - _batch.SowOn;
        if (_offHeatOn is { } off)
        {
            // Two counts of what the slow ones added, then the stand is known.
            if (_countsAfterHeat < 2 && _thinnedOn is null && day >= off + 3 + (4 * _countsAfterHeat))
            {
                // The last count is of all trays, as a rule.
                Count(day, all: _countsAfterHeat == 1 && _random.Chance(0.85));
                _countsAfterHeat++;
            }

            return;
        }

        if (age < Math.Max(1, (int)Math.Round(0.7 * _crop.DaysToEmergence)) || day - _lookedOn < 2)
        {
            return;
        }

        _lookedOn = day;
        if (_stand.Seedlings(day, _batch.Trays) is var up && up == 0)
        {
            Tell(day, Looking, PastWork.NotUp, word: "not up yet");
            _leavesOn ??= age >= _crop.HeatDays + 6 ? day + 1 : null;
            return;
        }

        if (_seenOn is null)
        {
            Tell(day, Looking, PastWork.Hooks);
            _seenOn = day;
        }

        Count(day, all: false);
        if (up >= _crop.MoveOffFraction * _lot.LabelPercent / 100.0 * _stand.Seeds || age >= _crop.HeatDays)
        {
            _leavesOn ??= day + 1;
        }
    }

    private void Count(int day, bool all)
    {
        var worker = _crew.Morning(day);
        var trays = !all && Crew.CountsASample(worker) && _batch.Trays > SampleTrays ? SampleTrays : _batch.Trays;
        var cells = trays * _batch.CellsPerTray;
        var (work, most, seen) = Crew.CountsBlanks(worker)
            ? (PastWork.CountBlanks, cells, _stand.Blanks(day, trays))
            : (PastWork.CountSeedlings, cells * _batch.SeedsPerCell, _stand.Seedlings(day, trays));
        Tell(day, Counting, work, Crew.Miscount(seen, most, _random), trays: trays == _batch.Trays ? null : trays);
    }

    private void Tend(int day)
    {
        if (_thinnedOn is null && _batch.SeedsPerCell > 1 && _crop.ThinDays is { } days && _offHeatOn is not null && day >= _seenOn + days)
        {
            Tell(day, Tending, PastWork.Thin);
            _thinnedOn = day;
            _thinned = _stand.Thin(day);
        }
    }

    private void Tell(
        int day, int minute, PastWork work, int value = 0, int? trays = null, string word = "", string bench = "", int? worker = null) =>
        _entries.Add(new PastEntry(
            day, minute + (_batch.Number % 15), worker ?? _crew.Morning(day), _batch.Number, work, value, trays, word, bench));
}
