using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Access;
using Nursery.Data.People;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Access;

public sealed class FindActorTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task ByApiKeyAsync_IssuedKey_ActsOnItsSiteWithItsScopes()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var issued = await nursery.Get<IssueApiKey>().HandleAsync("till", [Right.Ledger, Right.Read], nursery.Administrator);

        var actor = await nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret);

        Assert.NotNull(actor);
        Assert.Equal((issued.Id, "till", nursery.At.Site.Id), (actor.Id, actor.Name, actor.SiteId));
        Assert.Equal([Right.Read, Right.Ledger], actor.Rights.Order());
        Assert.Null(await nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret + "x"));
        await using var open = await nursery.DatabaseAsync();
        Assert.DoesNotContain(
            issued.Secret, Convert.ToHexString((await open.ApiKeys.SingleAsync(key => key.Name == "till")).SecretHash), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task ByApiKeyAsync_RevokedOrOver_FindsNobody()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var issued = await nursery.Get<IssueApiKey>().HandleAsync("revoked", [Right.Read], nursery.Administrator);
        await using var open = await nursery.DatabaseAsync();
        await open.ApiKeys.Where(key => key.Name == "revoked")
            .ExecuteUpdateAsync(key => key.SetProperty(row => row.RevokedAt, Instant.FromDateTimeOffset(TestNursery.Start)));
        Assert.Null(await nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret));

        issued = await nursery.Get<IssueApiKey>().HandleAsync("over", [Right.Read], nursery.Administrator);
        await open.ApiKeys.Where(key => key.Name == "over")
            .ExecuteUpdateAsync(key => key.SetProperty(row => row.ExpiresAt, Instant.FromDateTimeOffset(TestNursery.Start.AddHours(1))));
        Assert.NotNull(await nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret));
        nursery.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Null(await nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret));
    }

    [Fact]
    public async Task ByPersonAsync_RoleOnASite_GivesItsRights()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var person = new Person { Id = Guid.CreateVersion7(), UserName = "ada", DisplayName = "Ada Invented" };
        await using var open = await nursery.DatabaseAsync();
        open.AddRange(person, new PersonSite { PersonId = person.Id, SiteId = nursery.At.Site.Id, Role = Role.Staff });
        await open.SaveChangesAsync();

        var actor = await nursery.Get<FindActor>().ByPersonAsync(person.Id, "tablet");

        Assert.Equal(("Ada Invented", "tablet", nursery.At.Site.Id), (actor!.Name, actor.Device, actor.SiteId));
        Assert.Equal([Right.Read, Right.Ledger], actor.Rights.Order());
        Assert.Null(await nursery.Get<FindActor>().ByPersonAsync(Guid.CreateVersion7()));
    }
}
