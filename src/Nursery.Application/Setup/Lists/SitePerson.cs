using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain;
using Nursery.Domain.Sites;

namespace Nursery.Application.Setup.Lists;

/// <summary>Someone who signs in, with their role on the site; no role is being retired.</summary>
internal sealed record SitePerson(Person Person, PersonSite? Site)
{
    public static async Task<Dictionary<string, SitePerson>> LoadAsync(
        NurseryDbContext database, Id<Site> site, CancellationToken cancellation)
    {
        var roles = await database.PersonSites.Where(row => row.SiteId == site).ToDictionaryAsync(row => row.PersonId, cancellation);
        var people = await database.Users.OrderBy(person => person.UserName).ToListAsync(cancellation);
        return people.ToDictionary(
            person => person.UserName!,
            person => new SitePerson(person, roles.GetValueOrDefault(person.Id)),
            StringComparer.OrdinalIgnoreCase);
    }
}
