using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Papers;

/// <summary>Gives printed round sheets their number. The same list printed again keeps its number: looking at a paper changes nothing.</summary>
internal static class RoundSheetNumbers
{
    public static Task<int> OfAsync(
        IDbContextFactory<NurseryDbContext> databases, Site site, LocalDate day, Guid[] tasks, TimeProvider time, CancellationToken cancellation) =>
        databases.RunAsync(
            async database =>
            {
                // The site's row is the lock: two who print at once get two numbers, or the same for the same list.
                await database.Database.ExecuteSqlAsync($"SELECT 1 FROM sites WHERE id = {site.Id.Value} FOR UPDATE", cancellation);
                var known = await database.RoundSheets.AsNoTracking()
                    .Where(sheet => sheet.SiteId == site.Id && sheet.Day == day).OrderByDescending(sheet => sheet.Number).ToListAsync(cancellation);
                if (known.Find(sheet => sheet.TaskIds.SequenceEqual(tasks)) is { } same)
                {
                    return same.Number;
                }

                var last = await database.RoundSheets.Where(sheet => sheet.SiteId == site.Id)
                    .Select(sheet => (int?)sheet.Number).MaxAsync(cancellation) ?? 0;
                database.RoundSheets.Add(new RoundSheet
                {
                    Id = NewId.Of<RoundSheet>(time),
                    SiteId = site.Id,
                    Number = last + 1,
                    Day = day,
                    PrintedAt = Instant.FromDateTimeOffset(time.GetUtcNow()),
                    TaskIds = tasks,
                });
                await database.SaveChangesAsync(cancellation);
                return last + 1;
            },
            cancellation);
}
