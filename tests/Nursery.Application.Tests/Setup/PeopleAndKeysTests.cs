using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Access;
using Nursery.Application.People;
using Nursery.Application.Setup.Lists;
using Nursery.Data.People;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Xunit;

namespace Nursery.Application.Tests.Setup;

public sealed class PeopleAndKeysTests : IAsyncLifetime
{
    private EmptyNursery _nursery = null!;

    public async Task InitializeAsync() => _nursery = await EmptyNursery.OpenAsync();

    public async Task DisposeAsync() => await _nursery.DisposeAsync();

    [Fact]
    public async Task GivePassword_NewPerson_MaySignInWithItAndNoLongerWhenRetired()
    {
        await _nursery.ImportAsync("people", "user,name,role\nbo,Bo Larkspur,staff\n");
        var row = await _nursery.RowAsync("people", "bo");

        var password = await _nursery.Get<GivePassword>().HandleAsync(row.Id, _nursery.Administrator);

        Assert.Equal(PasswordVerificationResult.Success, await VerifyAsync(row.Id, password));
        await _nursery.Get<RetireSetupRow>().HandleAsync("people", row.Id, _nursery.Administrator);
        Assert.Null(await _nursery.Get<FindActor>().ByPersonAsync(row.Id));
        await using var database = await _nursery.DatabaseAsync();
        Assert.Null((await database.Users.SingleAsync(user => user.Id == row.Id)).PasswordHash);
        Assert.DoesNotContain(password, string.Join(' ', (await database.Ledger.ToListAsync()).Select(entry => entry.Value.ToString())), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ChangePassword_OldOneRight_ReplacesItSignsOutAndIsToldInTheLedger()
    {
        var (bo, old) = await BoAsync();
        var stamp = await StampAsync(bo.Id);

        await _nursery.Get<ChangePassword>().HandleAsync(old, "larkspur by the beck", bo);

        Assert.Equal(PasswordVerificationResult.Success, await VerifyAsync(bo.Id, "larkspur by the beck"));
        Assert.Equal(PasswordVerificationResult.Failed, await VerifyAsync(bo.Id, old));
        Assert.NotEqual(stamp, await StampAsync(bo.Id));
        await using var database = await _nursery.DatabaseAsync();
        var entry = (await database.Ledger.ToListAsync()).Single(row => row.WhoId == bo.Id);
        Assert.Equal("their own new one", Assert.IsType<Changed>(entry.Value).After!["password"]);
        Assert.DoesNotContain("larkspur by", System.Text.Json.JsonSerializer.Serialize(entry.Value), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ChangePassword_WrongShortOrSame_IsRefusedAndTheOldOneStays()
    {
        var (bo, old) = await BoAsync();
        var before = await LedgerAsync();

        foreach (var (typed, wanted, words) in new[]
        {
            ("not the old one", "larkspur by the beck", "The old password is not right"),
            (old, "short", "The new password has 5 characters; it must have 12–200"),
            (old, old, "The new password is the old one"),
        })
        {
            var refusal = await Assert.ThrowsAsync<PasswordRefused>(() => _nursery.Get<ChangePassword>().HandleAsync(typed, wanted, bo));
            Assert.Equal(words, refusal.Message);
        }

        Assert.Equal(PasswordVerificationResult.Success, await VerifyAsync(bo.Id, old));
        Assert.Equal(before, await LedgerAsync());
    }

    [Fact]
    public async Task ChangePassword_EightWrongTries_LocksForFiveMinutes()
    {
        var (bo, old) = await BoAsync();
        for (var number = 0; number < 8; number++)
        {
            await Assert.ThrowsAsync<PasswordRefused>(() => _nursery.Get<ChangePassword>().HandleAsync("wrong again", "larkspur by the beck", bo));
        }

        var refusal = await Assert.ThrowsAsync<PasswordRefused>(() => _nursery.Get<ChangePassword>().HandleAsync(old, "larkspur by the beck", bo));
        Assert.StartsWith("Too many wrong passwords", refusal.Message, StringComparison.Ordinal);
        await using var database = await _nursery.DatabaseAsync();
        Assert.True((await database.Users.SingleAsync(user => user.Id == bo.Id)).LockoutEnd > DateTimeOffset.UnixEpoch);
    }

    [Fact]
    public async Task AddFirstPerson_KnownUser_GetsANewPasswordAndKeepsTheId()
    {
        var again = await _nursery.Get<AddFirstPerson>().HandleAsync(new FirstPersonRequest(
            new Dictionary<string, string> { ["user"] = "ada", ["name"] = "Ada Thistlewick", ["role"] = "administrator" }, null));

        Assert.False(again.SiteIsNew);
        Assert.Equal(PasswordVerificationResult.Success, await VerifyAsync(_nursery.Administrator.Id, again.Password));
    }

    [Fact]
    public async Task Retire_OnlyAdministrator_IsRefused()
    {
        var row = await _nursery.RowAsync("people", "ada");

        await Assert.ThrowsAsync<InUse>(() => _nursery.Get<RetireSetupRow>().HandleAsync("people", row.Id, _nursery.Administrator));

        Assert.NotNull(await _nursery.Get<FindActor>().ByPersonAsync(row.Id));
    }

    [Fact]
    public async Task RevokeApiKey_Issued_EndsItAndBothAreInTheLedger()
    {
        var issued = await _nursery.Get<IssueApiKey>().HandleAsync("Web shop", [Right.Read], _nursery.Administrator);
        Assert.NotNull(await _nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret));

        await _nursery.Get<RevokeApiKey>().HandleAsync(issued.Id, _nursery.Administrator);

        Assert.Null(await _nursery.Get<FindActor>().ByApiKeyAsync(issued.Secret));
        Assert.NotNull(Assert.Single(await _nursery.Get<ListApiKeys>().HandleAsync(_nursery.Administrator)).RevokedOn);
        await using var database = await _nursery.DatabaseAsync();
        Assert.Equal(2, (await database.Ledger.ToListAsync()).Count(entry => entry.Value is Changed { What: "API key" }));
        await Assert.ThrowsAsync<InvalidFields>(() => _nursery.Get<IssueApiKey>().HandleAsync(" ", [], _nursery.Administrator));
    }

    private async Task<(Actor Bo, string Password)> BoAsync()
    {
        await _nursery.ImportAsync("people", "user,name,role\nbo,Bo Larkspur,staff\n");
        var row = await _nursery.RowAsync("people", "bo");
        var password = await _nursery.Get<GivePassword>().HandleAsync(row.Id, _nursery.Administrator);
        return ((await _nursery.Get<FindActor>().ByPersonAsync(row.Id))!, password);
    }

    private async Task<int> LedgerAsync()
    {
        await using var database = await _nursery.DatabaseAsync();
        return await database.Ledger.CountAsync();
    }

    private async Task<string> StampAsync(Guid id)
    {
        await using var database = await _nursery.DatabaseAsync();
        return (await database.Users.SingleAsync(user => user.Id == id)).SecurityStamp!;
    }

    private async Task<PasswordVerificationResult> VerifyAsync(Guid id, string password)
    {
        await using var database = await _nursery.DatabaseAsync();
        var person = await database.Users.SingleAsync(user => user.Id == id);
        return _nursery.Get<IPasswordHasher<Person>>().VerifyHashedPassword(person, person.PasswordHash!, password);
    }
}
