using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Scenario;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Sites;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.People;

/// <summary>Someone to sign in as, asked for at the machine itself; and a site to sign in to, when there is none.</summary>
/// <param name="Person">user, name, role as in people.csv.</param>
/// <param name="Site">As in site.csv; only its code matters when the site is there.</param>
public sealed record FirstPersonRequest(IReadOnlyDictionary<string, string> Person, IReadOnlyDictionary<string, string>? Site);

/// <summary>A password shown once, and whether the site is new.</summary>
public sealed record FirstPerson(string User, string Password, string Site, bool SiteIsNew);

/// <summary>Adds a person, or gives a known one a new password and role. For whoever has the machine: no actor is asked.</summary>
public sealed class AddFirstPerson(
    IDbContextFactory<NurseryDbContext> databases, IPasswordHasher<Person> hasher, TimeProvider time)
{
    private const string CommandLine = "command line";

    /// <exception cref="InvalidFields">Something is not allowed.</exception>
    public Task<FirstPerson> HandleAsync(FirstPersonRequest request, CancellationToken cancellation = default) =>
        databases.RunAsync(database => AddAsync(database, request, cancellation), cancellation);

    private async Task<FirstPerson> AddAsync(NurseryDbContext database, FirstPersonRequest request, CancellationToken cancellation)
    {
        await database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock(hashtext('load scenario'))", cancellation);
        var errors = new List<FieldError>();
        var (site, isNew) = await SiteAsync(database, request.Site, errors, cancellation);
        Refuse(errors);
        var rows = await NurseryRows.LoadAsync(database, site, new Dictionary<string, Domain.Crops.Crop>(), time, cancellation);
        var list = new PersonList();
        var staged = list.Stage([new CsvRow(null, null, request.Person, null, errors)], rows, null);
        Refuse(errors);
        var person = ((SitePerson?)staged[0].Known ?? (SitePerson)staged[0].Read).Person;
        var actor = new Actor(person.Id, CommandLine, site.Id, RoleRights.Of(Role.Administrator));
        list.Store(database, staged[0], rows, actor);
        var password = GivePassword.Give(person, hasher);
        database.Write(site, actor, time, new Changed("person", staged[0].Key, null, staged[0].Change.Fields
            .ToDictionary(field => field.Field, field => field.After)));
        await database.SaveChangesAsync(cancellation);
        return new FirstPerson(person.UserName!, password, site.Name, isNew);
    }

    private async Task<(Site Site, bool IsNew)> SiteAsync(
        NurseryDbContext database, IReadOnlyDictionary<string, string>? wanted, List<FieldError> errors, CancellationToken cancellation)
    {
        var sites = await database.Sites.OrderBy(site => site.Code).ToListAsync(cancellation);
        if (wanted is null)
        {
            return sites.Count == 1
                ? (sites[0], false)
                : throw new InvalidFields("site", null, sites.Count == 0
                    ? "--site CODE --site-name NAME --zone ZONE: there is no site yet"
                    : $"--site CODE, one of {string.Join(", ", sites.Select(site => site.Code))}");
        }

        if (sites.Find(site => site.Code == wanted["code"]) is { } known)
        {
            return (known, false);
        }

        var made = SiteList.SiteOf(new CsvRow(null, null, new SiteList().Info.Whole(wanted), null, errors), null, time);
        database.Sites.Add(made);
        return (made, true);
    }

    private static void Refuse(List<FieldError> errors)
    {
        if (errors.Count > 0)
        {
            throw new InvalidFields([.. errors]);
        }
    }
}
