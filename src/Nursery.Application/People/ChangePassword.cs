using System.Globalization;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.People;

/// <summary>Someone's own new password. Wherever they are signed in ends within five minutes; too many wrong old ones lock them
/// out as wrong ones at sign-in do.</summary>
public sealed class ChangePassword(
    IDbContextFactory<NurseryDbContext> databases, IPasswordHasher<Person> hasher, IOptions<IdentityOptions> rules, TimeProvider time)
{
    /// <summary>More than anyone types; hashing longer ones would be work for nothing.</summary>
    private const int Longest = 200;

    /// <exception cref="PasswordRefused">The old one is wrong, or the new one too short, too long or the old one again.</exception>
    /// <exception cref="NotFound">A key for programs has no password.</exception>
    public async Task HandleAsync(string old, string wanted, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        if (WhyNot(old, wanted) is { } why)
        {
            throw new PasswordRefused(why);
        }

        // A wrong try is stored too, so it is said only afterwards.
        var wrong = await databases.RunAsync(database => TryAsync(database, old, wanted, actor, cancellation), cancellation);
        if (wrong is not null)
        {
            throw new PasswordRefused(wrong);
        }
    }

    private string? WhyNot(string old, string wanted)
    {
        var least = rules.Value.Password.RequiredLength;
        return wanted.Length < least || wanted.Length > Longest
            ? string.Create(CultureInfo.InvariantCulture, $"The new password has {wanted.Length} characters; it must have {least}–{Longest}")
            : wanted == old ? "The new password is the old one" : null;
    }

    /// <returns>What was wrong; null when it is changed.</returns>
    private async Task<string?> TryAsync(NurseryDbContext database, string old, string wanted, Actor actor, CancellationToken cancellation)
    {
        // Locked, so that tries at the same moment are counted one after the other.
        await database.Database.ExecuteSqlAsync($"SELECT 1 FROM people WHERE id = {actor.Id} FOR UPDATE", cancellation);
        var person = await database.Users.SingleOrDefaultAsync(user => user.Id == actor.Id, cancellation)
            ?? throw new NotFound("person", "id", actor.Id.ToString());
        var (now, lockout) = (time.GetUtcNow(), rules.Value.Lockout);
        if (person.LockoutEnd > now)
        {
            return "Too many wrong passwords. Wait five minutes, then try again";
        }

        if (person.PasswordHash is null || old.Length > Longest
            || hasher.VerifyHashedPassword(person, person.PasswordHash, old) == PasswordVerificationResult.Failed)
        {
            person.AccessFailedCount++;
            if (person.AccessFailedCount >= lockout.MaxFailedAccessAttempts)
            {
                (person.AccessFailedCount, person.LockoutEnd) = (0, now + lockout.DefaultLockoutTimeSpan);
            }

            await database.SaveChangesAsync(cancellation);
            return "The old password is not right";
        }

        GivePassword.Set(person, wanted, hasher);
        var site = await database.SiteOfAsync(actor, cancellation);
        database.Write(site, actor, time, new Changed(
            "person", person.UserName!, new Dictionary<string, string>(), new Dictionary<string, string> { ["password"] = "their own new one" }));
        await database.SaveChangesAsync(cancellation);
        return null;
    }
}
