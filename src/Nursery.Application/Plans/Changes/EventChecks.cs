using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Outages;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Plans.Changes;

/// <summary>Looks at every field of what happened or is tried out.</summary>
internal sealed class EventChecks
{
    public const int MostChanges = 50;
    public const int MostDays = TakeOutOfUse.MostDays;
    private const int MostSlip = 60;
    private const int MostSpaces = 5000;
    private const int MostPlants = 1_000_000;
    private const int MostCents = 1_000_000;
    private const int MostSetpoints = 8;
    public const int LongestWhy = TakeOutOfUse.LongestWhy;

    private readonly FieldChecks _checks = new();
    private readonly LocalDate _today;
    private readonly Codes _codes;

    private EventChecks(LocalDate today, Codes codes) => (_today, _codes) = (today, codes);

    /// <exception cref="InvalidFields">What is wrong, field by field.</exception>
    public static async Task RefuseAsync(
        NurseryDbContext database, PlanRequest request, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var checks = new EventChecks(today, request.Changes.Count == 0 ? Codes.None : await LoadAsync(database, actor, today, cancellation));
        checks.Check(request);
        checks._checks.Done();
    }

    /// <param name="Out">What is out of use by now, by the code of the zone, else of the bench.</param>
    private sealed record Codes(
        IReadOnlySet<string> Batches, IReadOnlySet<string> Benches, IReadOnlySet<string> Zones, IReadOnlySet<string> Varieties,
        IReadOnlyList<(string? Zone, string Bench, LocalDate From, LocalDate To)> Out)
    {
        public static Codes None { get; } = new(new HashSet<string>(), new HashSet<string>(), new HashSet<string>(), new HashSet<string>(), []);
    }

    private static async Task<Codes> LoadAsync(
        NurseryDbContext database, Actor actor, LocalDate today, CancellationToken cancellation) => new(
        (await database.Batches.Where(row => row.SiteId == actor.SiteId && row.State.Stage != BatchStage.HandedOver && row.State.Stage != BatchStage.Discarded)
            .Select(row => row.Code).ToListAsync(cancellation)).ToHashSet(),
        (await database.Benches.Where(row => row.SiteId == actor.SiteId && row.RetiredOn == null).Select(row => row.Code).ToListAsync(cancellation)).ToHashSet(),
        (await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            where zone.SiteId == actor.SiteId && bench.RetiredOn == null
            select zone.Code).ToListAsync(cancellation)).ToHashSet(),
        (await database.Varieties.Where(row => row.RetiredOn == null).Select(row => row.Code).ToListAsync(cancellation)).ToHashSet(),
        [.. (await OutageItems.LoadAsync(database, actor.SiteId, today, cancellation)).Select(outage => (outage.ZoneCode, outage.BenchCode, outage.From, outage.To))]);

    private void Check(PlanRequest request)
    {
        if (request.Aim != PlanAim.Whole && request.Problem is not null)
        {
            _checks.Fail("aim", request.Aim.ToString(), "whole for a problem that is sent");
        }

        if (request.Changes.Count > MostChanges || (request.Aim == PlanAim.Whole && request.Changes.Count > 0) || (request.Aim == PlanAim.Try && request.Changes.Count == 0))
        {
            _checks.Fail("changes", $"{Number(request.Changes.Count)} changes", request.Aim switch
            {
                PlanAim.Whole => "none for a whole plan; keep or try out takes them",
                PlanAim.Keep => $"0–{MostChanges}",
                _ => $"1–{MostChanges} to try out",
            });
        }

        var seen = new HashSet<string>();
        var taken = _codes.Out.ToList();
        foreach (var (index, change) in request.Changes.Take(MostChanges).Index())
        {
            var at = $"changes[{Number(index)}].";
            if (request.Aim == PlanAim.Keep && change is not (SlippedBatch or BenchOut or ZoneOut))
            {
                _checks.Fail(at + "kind", KindOf(change), "batchSlips, benchOutOfUse or zoneBroken; other changes are made in the season itself first, or tried out");
            }

            Check(at, change);
            if (((change as SlippedBatch)?.Batch ?? (change as CancelledBatch)?.Batch) is { } batch && !seen.Add(batch))
            {
                _checks.Fail(at + "batch", batch, "each batch once");
            }

            var (zone, bench, from, to) = change switch
            {
                BenchOut gone => (null, gone.Bench, gone.From, gone.To),
                ZoneOut gone => (gone.Zone, "", gone.From, gone.To),
                _ => default((string? Zone, string? Bench, LocalDate From, LocalDate To)),
            };
            if (bench is null)
            {
                continue;
            }

            // Taken out twice for one day it could not be accepted.
            if (taken.Exists(known => known.Zone == zone && (zone is not null || known.Bench == bench) && known.From < to && known.To > from))
            {
                _checks.Fail(at + "from", Iso(from), "days on which it is not out of use already");
            }

            taken.Add((zone, bench, from, to));
        }
    }

    private void Check(string at, PlanEvent change)
    {
        switch (change)
        {
            case SlippedBatch slip:
                Batch(at, slip.Batch);
                Whole(at + "days", slip.Days, -MostSlip, MostSlip, ", not 0", slip.Days != 0);
                break;
            case BenchOut bench:
                Known(at + "bench", bench.Bench, _codes.Benches, "the code of a bench of this site in use");
                OutOfUse(at, bench.From, bench.To, bench.Why);
                break;
            case ZoneOut zone:
                Zone(at, zone.Zone);
                OutOfUse(at, zone.From, zone.To, zone.Why);
                break;
            case AddedOrder order:
                Known(at + "variety", order.Variety, _codes.Varieties, "the code of a variety in use");
                Whole(at + "plants", order.Plants, 1, MostPlants);
                Later(at + "readyOn", order.ReadyOn, _today.PlusDays(1));
                break;
            case CancelledBatch batch:
                Batch(at, batch.Batch);
                break;
            case TriedSetpoints zone:
                Zone(at, zone.Zone);
                Setpoints(at, zone.SetpointsF);
                break;
            case RentedSpaces rented:
                if (rented.Use is not (PlaceKind.Warm or PlaceKind.Cool or PlaceKind.Heat))
                {
                    _checks.Fail(at + "use", rented.Use.ToString(), "warm, cool or heat");
                }

                Whole(at + "spaces", rented.Spaces, 1, MostSpaces);
                Span(at, rented.From, rented.To);
                break;
            case MoreHardening hardening:
                Whole(at + "more", hardening.More, 1, MostSpaces);
                break;
            case TriedPrices prices:
                Prices(at, prices);
                break;
        }
    }

    private void Prices(string at, TriedPrices prices)
    {
        var given = EventWords.Set(prices).ToList();
        foreach (var (field, _, cents) in given)
        {
            Whole(at + field, cents, 0, MostCents, " cents");
        }

        if (given.Count == 0)
        {
            _checks.Fail(at + "kind", "prices", "one price or more with it");
        }
    }

    private void Setpoints(string at, IReadOnlyList<double> setpointsF)
    {
        if (setpointsF.Count is 0 or > MostSetpoints)
        {
            _checks.Fail(at + "setpointsF", $"{Number(setpointsF.Count)} setpoints", $"1–{MostSetpoints} of them");
        }

        foreach (var setpoint in setpointsF.Where(setpoint => !(setpoint is >= 32 and <= 120)))
        {
            _checks.Fail(at + "setpointsF", Number(setpoint), "32–120 °F");
        }
    }

    private void Batch(string at, string batch) =>
        Known(at + "batch", batch, _codes.Batches, "the code of a batch of this site that is planned or grows");

    private void Zone(string at, string zone) => Known(at + "zone", zone, _codes.Zones, "the code of a heat zone of this site on a bench in use");

    private void Known(string field, string code, IReadOnlySet<string> known, string allowed)
    {
        if (!known.Contains(code))
        {
            _checks.Fail(field, code, allowed);
        }
    }

    private void OutOfUse(string at, LocalDate from, LocalDate to, string? why)
    {
        Span(at, from, to);
        if (!string.IsNullOrWhiteSpace(why))
        {
            _checks.Text(at + "why", why, LongestWhy);
        }
    }

    private void Span(string at, LocalDate from, LocalDate to)
    {
        Later(at + "from", from, _today);
        Later(at + "to", to, LocalDate.Max(from, _today).PlusDays(1));
    }

    private void Later(string field, LocalDate day, LocalDate first)
    {
        var last = _today.PlusDays(MostDays);
        if (day < first || day > last)
        {
            _checks.Fail(field, Iso(day), $"{Iso(LocalDate.Min(first, last))} to {Iso(last)}");
        }
    }

    private void Whole(string field, int value, int least, int most, string more = "", bool also = true)
    {
        if (value < least || value > most || !also)
        {
            _checks.Fail(field, Number(value), $"{Number(least)} to {Number(most)}{more}");
        }
    }

    /// <summary>As JSON spells it.</summary>
    private static string KindOf(PlanEvent change) =>
        Attribute.GetCustomAttributes(typeof(PlanEvent), typeof(System.Text.Json.Serialization.JsonDerivedTypeAttribute))
            .Cast<System.Text.Json.Serialization.JsonDerivedTypeAttribute>().First(kind => kind.DerivedType == change.GetType()).TypeDiscriminator!.ToString()!;

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);

    private static string Number(IFormattable value) => value.ToString(null, CultureInfo.InvariantCulture);
}
