using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Access;

/// <summary>The actor's site and its day.</summary>
public sealed record SiteInfo(
    string Code, string Name, string TimeZone, Units Units, PaperSize Paper, string? PublicAddress, bool IsDemo, LocalDate Today);

public sealed class ShowSite(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<SiteInfo> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        return new SiteInfo(
            site.Code, site.Name, site.TimeZone, site.Units, site.Paper, site.PublicAddress, site.IsDemo, site.Today(time));
    }
}
