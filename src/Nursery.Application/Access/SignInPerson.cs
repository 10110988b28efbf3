using Microsoft.AspNetCore.Identity;
using Nursery.Data.People;

namespace Nursery.Application.Access;

public enum SignInOutcome
{
    SignedIn,

    /// <summary>No such user, or another password: which of the two is not said.</summary>
    Wrong,

    /// <summary>Too many wrong passwords; some minutes' wait.</summary>
    LockedOut,
}

/// <summary>Signs a person in with a cookie, or out.</summary>
public sealed class SignInPerson(SignInManager<Person> signIn)
{
    public async Task<SignInOutcome> HandleAsync(string user, string password)
    {
        var result = await signIn.PasswordSignInAsync(user.Trim(), password, isPersistent: true, lockoutOnFailure: true);
        return result switch
        {
            { Succeeded: true } => SignInOutcome.SignedIn,
            { IsLockedOut: true } => SignInOutcome.LockedOut,
            _ => SignInOutcome.Wrong,
        };
    }

    public Task SignOutAsync() => signIn.SignOutAsync();
}
