using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;

namespace Nursery.Application.Benches;

/// <summary>The last space of a bench a tray set ever reserved.</summary>
internal sealed record HeldBeyond(int Space, string TraySetCode);

/// <summary>Who relies on a bench.</summary>
internal static class BenchHolds
{
    /// <summary>The reservation that reaches farthest beyond a space; null when none does.</summary>
    public static async Task<HeldBeyond?> BeyondAsync(
        NurseryDbContext database, Id<Bench> bench, int space, CancellationToken cancellation)
    {
        var held = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            where reservation.BenchId == bench
            select new { reservation.Spaces, traySet.Code }).ToListAsync(cancellation);
        return held.Where(row => row.Spaces.Last > space).OrderByDescending(row => row.Spaces.Last)
            .Select(row => new HeldBeyond(row.Spaces.Last, row.Code)).FirstOrDefault();
    }

    /// <summary>Tray sets that hold spaces on a day or later, or stand there now.</summary>
    public static async Task<IReadOnlyList<string>> FromAsync(
        NurseryDbContext database, Id<Bench> bench, LocalDate day, CancellationToken cancellation)
    {
        var planned = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            where reservation.BenchId == bench && reservation.Days.End >= day
            select traySet.Code).ToListAsync(cancellation);
        var standing = await (
            from row in database.Standings
            join traySet in database.TraySets on row.TraySetId equals traySet.Id
            where row.BenchId == bench
            select traySet.Code).ToListAsync(cancellation);
        return [.. planned.Concat(standing).Distinct().Order(StringComparer.Ordinal)];
    }
}
