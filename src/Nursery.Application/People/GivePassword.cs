using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Scenario;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.People;

/// <summary>A new password for someone of the site: shown once, stored only as a hash. Whoever is signed in as them is signed out.</summary>
public sealed class GivePassword(IDbContextFactory<NurseryDbContext> databases, IPasswordHasher<Person> hasher, TimeProvider time)
{
    public Task<string> HandleAsync(Guid person, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Admin);
        return databases.RunAsync(
            async database =>
            {
                var found = await (
                    from row in database.PersonSites
                    join user in database.Users on row.PersonId equals user.Id
                    where row.SiteId == actor.SiteId && row.PersonId == person
                    select user).SingleOrDefaultAsync(cancellation)
                    ?? throw new NotFound("person", "id", person.ToString());
                var password = Give(found, hasher);
                var site = await database.SiteOfAsync(actor, cancellation);
                database.Write(site, actor, time, new Changed(
                    "person", found.UserName!, new Dictionary<string, string>(), new Dictionary<string, string> { ["password"] = "a new one" }));
                await database.SaveChangesAsync(cancellation);
                return password;
            },
            cancellation);
    }

    internal static string Give(Person person, IPasswordHasher<Person> hasher)
    {
        var password = SignInSecrets.NewPassword();
        Set(person, password, hasher);
        return password;
    }

    /// <summary>The stamp is what signs out: a cookie with another is worth nothing.</summary>
    internal static void Set(Person person, string password, IPasswordHasher<Person> hasher)
    {
        person.PasswordHash = hasher.HashPassword(person, password);
        person.SecurityStamp = Guid.NewGuid().ToString("N");
        person.LockoutEnd = null;
        person.AccessFailedCount = 0;
    }
}
