using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>Spaces a proposal holds for trays; <paramref name="To"/> is the first day no longer.</summary>
internal sealed record ProposedHold(SpaceRun Trays, Domain.Benches.Bench Bench, SpaceRun Spaces, LocalDate From, LocalDate To)
{
    public Reservation AsReservation(Id<Site> site, Id<TraySet> traySet) => new()
    {
        Id = default,
        SiteId = site,
        TraySetId = traySet,
        Trays = Trays,
        BenchId = Bench.Id,
        Capacity = Bench.Capacity,
        Spaces = Spaces,
        Days = new DateInterval(From, To.PlusDays(-1)),
    };
}

/// <summary>All places a proposal gives a batch.</summary>
/// <param name="Placed">Null: it gives up the places it has.</param>
internal sealed record ProposedPlace(SeasonBatch Row, PlannedBatch? Placed, IReadOnlyList<ProposedHold> Holds)
{
    public LocalDate SowOn => LocalDate.FromDateOnly(Placed!.SowOn);

    /// <summary>In a plan it is ready on the first day its trays are gone.</summary>
    public LocalDate ReadyOn => LocalDate.FromDateOnly(Placed!.ReadyOn).PlusDays(-1);

    public string Sentence => Placed is null
        ? $"{Row.TraySet.Code}: gives up its places, as the accepted plan has none for it"
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{Row.TraySet.Code}: plan accepted, on heat in {string.Join(", ", Placed.Heat.Select(stay => stay.Zone).Distinct())}, then on bench {string.Join(", ", Placed.Benches.Select(stay => stay.Bench).Distinct())}");
}
