using Microsoft.AspNetCore.Identity;
using Nursery.Application.Access;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Scenario;

/// <summary>Writes the people of a scenario with new passwords, and a key for other systems.</summary>
internal sealed class ScenarioPeople(IPasswordHasher<Person> hasher, ILookupNormalizer normalizer, TimeProvider time)
{
    /// <summary>Everybody as an actor, by user; the first person of each role with the password.</summary>
    public (IReadOnlyDictionary<string, Actor> Actors, IReadOnlyList<SignIn> SignIns) Add(NurseryDbContext database, SiteFiles files)
    {
        var actors = new Dictionary<string, Actor>();
        var signIns = new List<SignIn>();
        foreach (var row in files.People.Values)
        {
            var password = SignInSecrets.NewPassword();
            var person = new Person
            {
                Id = Guid.CreateVersion7(time.GetUtcNow()),
                UserName = row.User,
                NormalizedUserName = normalizer.NormalizeName(row.User),
                DisplayName = row.Name,
                SecurityStamp = Guid.NewGuid().ToString("N"),
                LockoutEnabled = true,
            };
            person.PasswordHash = hasher.HashPassword(person, password);
            database.Users.Add(person);
            database.PersonSites.Add(new PersonSite { PersonId = person.Id, SiteId = files.Site.Id, Role = row.Role });
            actors.Add(row.User, new Actor(person.Id, row.Name, files.Site.Id, RoleRights.Of(row.Role)));
            if (signIns.TrueForAll(known => known.Role != row.Role))
            {
                signIns.Add(new SignIn(row.Role, row.User, password));
            }
        }

        return (actors, signIns);
    }

    /// <summary>A key with every scope; its secret.</summary>
    public string AddApiKey(NurseryDbContext database, Site site)
    {
        var (key, secret) = IssueApiKey.Make("demo", Enum.GetValues<Right>(), site.Id, time);
        database.ApiKeys.Add(key);
        return secret;
    }
}
