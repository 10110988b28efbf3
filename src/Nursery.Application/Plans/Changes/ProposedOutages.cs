using NodaTime;
using Nursery.Application.Outages;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.Plans.Changes;

/// <summary>What a proposal takes out of use, on the nursery as it is now. Days that are past by now are left out.</summary>
internal sealed class ProposedOutages
{
    private readonly SeasonRows _rows;
    private readonly List<(SeasonOutage Outage, Bench Bench, HeatZone? Zone)> _all = [];
    private readonly List<string> _reasons = [];

    public ProposedOutages(SeasonRows rows, IReadOnlyList<PlanEvent> changes, LocalDate today)
    {
        _rows = rows;
        foreach (var change in changes.Where(change => change is BenchOut or ZoneOut))
        {
            if (ChangedSeason.OutageOf(rows, change) is not { } outage || rows.Hit(outage) is not { } hit)
            {
                _reasons.Add(change is BenchOut bench ? $"Bench {bench.Bench} is no longer there" : $"Heat zone {((ZoneOut)change).Zone} is no longer there");
                continue;
            }

            if (outage.To <= today)
            {
                continue;
            }

            outage = outage with { From = LocalDate.Max(today, outage.From) };
            if (rows.Outages.FirstOrDefault(known => known.BenchId == outage.BenchId && known.ZoneId == outage.ZoneId && known.From < outage.To && known.To > outage.From) is { } twice)
            {
                _reasons.Add(NotInUse.Sentence(hit.Bench.Code, hit.Zone?.Zone.Code, twice.From, twice.To, twice.Why) + " already");
            }

            _all.Add((outage, hit.Bench, hit.Zone?.Zone));
        }
    }

    /// <summary>Why it cannot be accepted.</summary>
    public IReadOnlyList<string> Reasons => _reasons;

    /// <summary>The season with these out of use.</summary>
    public SeasonRows Applied() => _rows with { Outages = [.. _rows.Outages, .. _all.Select(one => one.Outage)] };

    /// <summary>Within the caller's transaction.</summary>
    public async Task WriteAsync(NurseryDbContext database, Site site, TakeOutOfUse outages, Actor actor, CancellationToken cancellation)
    {
        foreach (var (outage, bench, zone) in _all)
        {
            await outages.WriteAsync(
                database, site, bench, zone, new TakeOutOfUseRequest(bench.Code, zone?.Code, outage.From, outage.To, outage.Why), actor, cancellation);
        }
    }
}
