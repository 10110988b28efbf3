using Nursery.Planning.Problems;

namespace Nursery.Planning.Changes;

/// <summary>Something that happens to a season, or that is tried out on a copy of it.</summary>
public abstract record SeasonChange
{
    /// <summary>The problem with the change; the one given stays as it is.</summary>
    public abstract Problem Applied(Problem problem);

    /// <exception cref="ProblemUnreadable">There is no such thing in the problem.</exception>
    private protected static List<T> With<T>(IReadOnlyList<T> all, string list, string name, Func<T, string> id, Func<T, T> change)
    {
        if (!all.Any(one => id(one) == name))
        {
            throw new ProblemUnreadable($"{list}: \"{name}\" is not there; one of the problem's is allowed.");
        }

        return [.. all.Select(one => id(one) == name ? change(one) : one)];
    }
}

/// <summary>A batch comes up later than thought, -60 to 60 days: on heat it stays so much longer; not sown yet it cannot be sown before.</summary>
public sealed record BatchSlips(string Batch, int Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Batches = With(problem.Batches, "batches", Batch, batch => batch.Id, batch => batch with
        {
            SowFrom = (batch.Now?.SowOn ?? batch.SowFrom ?? problem.Start).AddDays(Days),
        }),
    };
}

/// <summary>A bench cannot be used on some days.</summary>
public sealed record BenchOutOfUse(string Bench, OutOfUse Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Benches = With(problem.Benches, "benches", Bench, bench => bench.Id, bench => bench with { OutOfUse = [.. bench.OutOfUse ?? [], Days] }),
    };
}

/// <summary>A heat zone is broken on some days.</summary>
public sealed record ZoneBroken(string Zone, OutOfUse Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Zones = With(problem.Zones, "zones", Zone, zone => zone.Id, zone => zone with { OutOfUse = [.. zone.OutOfUse ?? [], Days] }),
    };
}

/// <summary>A zone may be given other setpoints than so far.</summary>
public sealed record ZoneSetpoints(string Zone, IReadOnlyList<double> SetpointsF) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Zones = With(problem.Zones, "zones", Zone, zone => zone.Id, zone => zone with { SetpointsF = SetpointsF }),
    };
}

/// <summary>A batch is ordered.</summary>
public sealed record BatchAdded(Batch Batch) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with { Batches = [.. problem.Batches, Batch] };
}

/// <summary>A batch is no longer wanted.</summary>
public sealed record BatchCancelled(string Batch) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Batches = [.. With(problem.Batches, "batches", Batch, batch => batch.Id, batch => batch).Where(batch => batch.Id != Batch)],
    };
}

/// <summary>A batch may be handed over so many days later than so far, 1 to 60; they still cost what late days cost.</summary>
public sealed record HandOverLate(string Batch, int Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Batches = With(problem.Batches, "batches", Batch, batch => batch.Id, batch => batch with { LastLate = batch.LastReady.AddDays(Days) }),
    };
}

/// <summary>A batch may be ready so many days sooner than so far, 1 to 60; they still cost what early days cost.</summary>
public sealed record SowEarlier(string Batch, int Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Batches = With(problem.Batches, "batches", Batch, batch => batch.Id, batch => batch with { Earliest = batch.FirstReady.AddDays(-Days) }),
    };
}

/// <summary>Spaces are rented: a bench that can be used on some days only.</summary>
/// <param name="SetpointsF">Of a heated bench: what its one zone, called after it, may be set to, °F.</param>
public sealed record SpacesRented(Bench Bench, OutOfUse Days, IReadOnlyList<double>? SetpointsF = null) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Houses = problem.Houses.Any(house => house.Id == Bench.House) ? problem.Houses : [.. problem.Houses, new House(Bench.House)],
        Benches = [.. problem.Benches, Bench with { OutOfUse = [.. Outside(problem)] }],
        Zones = Bench.Use == BenchUse.Heat
            ? [.. problem.Zones, new HeatZone(Bench.Id, Bench.Id, 1, Bench.Spaces, SetpointsF ?? [])]
            : problem.Zones,
    };

    private IEnumerable<OutOfUse> Outside(Problem problem)
    {
        if (problem.Start < Days.From)
        {
            yield return new OutOfUse(problem.Start, Days.From);
        }

        if (Days.To < problem.End)
        {
            yield return new OutOfUse(Days.To, problem.End);
        }
    }
}

/// <summary>Hardening holds so many spaces more on some days, 1 to 30,000.</summary>
public sealed record HardeningRented(int Spaces, OutOfUse Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        HardeningSpaces = problem.HardeningSpaces + Spaces,
        Frozen =
        [
            .. problem.Frozen ?? [],
            .. new[] { new OutOfUse(problem.Start, Days.From), new OutOfUse(Days.To, problem.End) }.Where(span => span.From < span.To)
                .Select(span => new FrozenStay(FrozenWhere.Hardening, span.From, span.To, 1, Spaces)),
        ],
    };
}

/// <summary>What was promised of a zone no longer holds on some days.</summary>
public sealed record SetpointFreed(string Zone, OutOfUse Days) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with
    {
        Setpoints = [.. (problem.Setpoints ?? []).SelectMany(span => span.Zone == Zone ? Kept(span) : [span])],
    };

    private IEnumerable<FrozenSetpoint> Kept(FrozenSetpoint span) =>
        new[] { span with { To = Min(span.To, Days.From) }, span with { From = Days.To > span.From ? Days.To : span.From } }
            .Where(kept => kept.From < kept.To);

    private static DateOnly Min(DateOnly one, DateOnly other) => one < other ? one : other;
}

/// <summary>So many trays of a batch are given up, 1 to all of them.</summary>
public sealed record TraysDropped(string Batch, int Trays) : SeasonChange
{
    public override Problem Applied(Problem problem)
    {
        var batch = problem.Batches.FirstOrDefault(batch => batch.Id == Batch);
        return batch is not null && batch.Trays > Trays
            ? problem with { Batches = With(problem.Batches, "batches", Batch, one => one.Id, Without) }
            : new BatchCancelled(Batch).Applied(problem);
    }

    /// <summary>As many spaces less as the trays took, those of a tray in part kept.</summary>
    private Batch Without(Batch batch)
    {
        return batch with { Trays = batch.Trays - Trays, Spaces = Fewer(batch.Spaces), SpacesAfter = Fewer(batch.SpacesAfter) };

        int? Fewer(int? spaces) => spaces is { } all ? (int)Math.Ceiling((double)all * (batch.Trays - Trays) / batch.Trays) : null;
    }
}

/// <summary>Hardening holds so many spaces more (or fewer).</summary>
public sealed record HardeningChanged(int Spaces) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with { HardeningSpaces = problem.HardeningSpaces + Spaces };
}

/// <summary>Other prices.</summary>
public sealed record PricesChanged(Prices Prices) : SeasonChange
{
    public override Problem Applied(Problem problem) => problem with { Prices = Prices };
}
