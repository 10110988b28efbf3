using Microsoft.AspNetCore.Identity;
using NodaTime;
using Nursery.Application.Scenario;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.People;

namespace Nursery.Application.People;

/// <summary>People and their roles. Who comes by a file or form cannot sign in until they are given a password.</summary>
internal sealed class PersonList : SetupList<SitePerson>
{
    /// <summary>The one sign-in looks people up by.</summary>
    private static readonly UpperInvariantLookupNormalizer Normalizer = new();

    public override SetupListInfo Info { get; } = new("people", "People", "person", Right.Admin,
    [
        new("user", "User") { Hint = "to sign in with: letters a–z, digits, - . _" },
        new("name", "Name"),
        new("role", "Role", ColumnKind.Word) { Words = [.. RoleWords.All.Keys] },
    ], "user");

    public override Dictionary<string, SitePerson> Of(NurseryRows rows) => rows.People;

    public override SitePerson? Read(CsvRow line, NurseryRows rows, SitePerson? known)
    {
        var (user, name, role) = (line.Text("user", 40), line.Text("name"), line.Word("role", RoleWords.All));
        if (!user.All(sign => char.IsAsciiLetterOrDigit(sign) || sign is '-' or '.' or '_'))
        {
            line.Fail("user", "letters a–z, digits, - . _");
        }

        if (known?.Site?.Role == Role.Administrator && role != Role.Administrator && LastAdministrator(rows, known))
        {
            line.Fail("role", "administrator: nobody else is one");
        }

        var person = new Person
        {
            Id = known?.Person.Id ?? Guid.CreateVersion7(rows.Time.GetUtcNow()),
            UserName = user,
            NormalizedUserName = Normalizer.NormalizeName(user),
            DisplayName = name,
            SecurityStamp = Guid.NewGuid().ToString("N"),
            LockoutEnabled = true,
        };
        return new SitePerson(person, new PersonSite { PersonId = person.Id, SiteId = rows.Site.Id, Role = role });
    }

    /// <summary>Whether all other people who may sign in are no administrators; the row itself is out of the list while it is read.</summary>
    private static bool LastAdministrator(NurseryRows rows, SitePerson person) =>
        !rows.People.Values.Any(other => other.Person.Id != person.Person.Id && other.Site?.Role == Role.Administrator);

    protected override IReadOnlyDictionary<string, string> Fields(SitePerson row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["user"] = row.Person.UserName!,
        ["name"] = row.Person.DisplayName,
        ["role"] = row.Site is { } site ? RoleWords.Of(site.Role) : "",
    };

    protected override Guid IdOf(SitePerson row) => row.Person.Id;

    protected override int VersionOf(SitePerson row) => 0;

    protected override IEnumerable<SitePerson> Sorted(IEnumerable<SitePerson> all, NurseryRows rows) =>
        all.Where(row => row.Site is not null).OrderBy(row => row.Person.UserName, StringComparer.OrdinalIgnoreCase);

    // Someone without a role here was retired, or belongs to another site; to import them again gives them one.
    protected override LocalDate? RetiredOn(SitePerson row) => null;

    public override void Store(NurseryDbContext database, Staged staged, NurseryRows rows, Actor actor)
    {
        var read = (SitePerson)staged.Read;
        if (staged.Known is not SitePerson known)
        {
            database.Add(read.Person);
            database.Add(read.Site!);
            return;
        }

        (known.Person.UserName, known.Person.NormalizedUserName) = (read.Person.UserName, read.Person.NormalizedUserName);
        (known.Person.DisplayName, known.Person.SecurityStamp) = (read.Person.DisplayName, read.Person.SecurityStamp);
        if (known.Site is { } site)
        {
            site.Role = read.Site!.Role;
        }
        else
        {
            database.Add(read.Site!);
        }
    }

    public override Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var person = rows.People[key];
        if (person.Site?.Role == Role.Administrator && LastAdministrator(rows, person))
        {
            throw new InUse($"{person.Person.DisplayName} is the only administrator: make someone else one first");
        }

        if (person.Site is { } site)
        {
            database.Remove(site);
        }

        // Cookies signed before end with the stamp; the name stays in the ledger.
        person.Person.PasswordHash = null;
        person.Person.SecurityStamp = Guid.NewGuid().ToString("N");
        return Task.FromResult(false);
    }
}
