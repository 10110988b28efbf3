using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Papers;

/// <summary>A line of a printed round sheet, as things are now. BatchId is null for what is not about a batch.</summary>
public sealed record SheetLine(
    int Line, Guid TaskId, Guid? BatchId, string Task, string Code, string Subject, TaskState State, string? DoneBy, LocalDate? DoneOn);

/// <summary>Someone who works on the site and may have walked the round.</summary>
public sealed record SheetPerson(Guid Id, string Name);

/// <summary>A printed round sheet to enter.</summary>
public sealed record EnterableSheet(
    int Number, LocalDate Day, LocalDateTime Now, IReadOnlyList<SheetLine> Lines, IReadOnlyList<SheetPerson> People);

/// <summary>Finds a printed round sheet by its number.</summary>
public sealed class ShowRoundSheet(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">No sheet of that number was printed.</exception>
    public async Task<EnterableSheet> HandleAsync(int number, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var sheet = await database.RoundSheets.AsNoTracking()
            .SingleOrDefaultAsync(row => row.SiteId == site.Id && row.Number == number, cancellation)
            ?? throw new NotFound("round sheet", "sheet", number.ToString(System.Globalization.CultureInfo.InvariantCulture));
        var ids = sheet.TaskIds.Select(id => new Id<RoundTask>(id)).ToList();
        var tasks = await database.Tasks.AsNoTracking().Where(task => ids.Contains(task.Id)).ToDictionaryAsync(task => task.Id, cancellation);
        var about = tasks.Values.Select(task => task.BatchId).OfType<Id<Batch>>().Distinct().ToList();
        var batches = (await database.BatchRows(site.Id).AsNoTracking().Where(row => about.Contains(row.Batch.Id)).ToListAsync(cancellation))
            .DistinctBy(row => row.Batch.Id).ToDictionary(row => row.Batch.Id);
        var places = await PlacesAsync(database, site.Id, cancellation);
        return new EnterableSheet(
            sheet.Number,
            sheet.Day,
            Instant.FromDateTimeOffset(time.GetUtcNow()).InZone(site.Zone).LocalDateTime,
            [.. ids.Select((id, i) => LineOf(i + 1, tasks[id], batches, places))],
            await PeopleAsync(database, actor, cancellation));
    }

    private static SheetLine LineOf(int line, RoundTask task, Dictionary<Id<Batch>, BatchRow> batches, Dictionary<Guid, string> places)
    {
        var batch = task.BatchId is { } id ? batches.GetValueOrDefault(id) : null;
        return new SheetLine(
            line,
            task.Id.Value,
            batch?.Batch.Id.Value,
            TaskTitles.Of(task.Kind),
            batch?.Batch.Code ?? "",
            batch is null ? places.GetValueOrDefault(task.SubjectId, "") : $"{batch.Crop.Name} ‘{batch.Variety.Name}’",
            task.State,
            task.DoneBy,
            task.DoneOn);
    }

    private static async Task<Dictionary<Guid, string>> PlacesAsync(NurseryDbContext database, Id<Site> site, CancellationToken cancellation)
    {
        var benches = await database.Benches.Where(bench => bench.SiteId == site).Select(bench => new { bench.Id, bench.Name }).ToListAsync(cancellation);
        var houses = await database.Houses.Where(house => house.SiteId == site).Select(house => new { house.Id, house.Name }).ToListAsync(cancellation);
        return benches.Select(bench => (bench.Id.Value, bench.Name)).Concat(houses.Select(house => (house.Id.Value, house.Name)))
            .ToDictionary(place => place.Value, place => place.Name);
    }

    private static async Task<IReadOnlyList<SheetPerson>> PeopleAsync(NurseryDbContext database, Actor actor, CancellationToken cancellation)
    {
        var people = await (
            from member in database.PersonSites
            join person in database.Users on member.PersonId equals person.Id
            where member.SiteId == actor.SiteId
            select new { person.Id, person.DisplayName, member.Role }).ToListAsync(cancellation);
        return
        [
            .. people.Where(person => RoleRights.Of(person.Role).Contains(Right.Ledger))
                .OrderBy(person => person.DisplayName, StringComparer.Ordinal).ThenBy(person => person.Id)
                .Select(person => new SheetPerson(person.Id, person.DisplayName)),
        ];
    }
}
