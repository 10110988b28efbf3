using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.People;

namespace Nursery.Application.Access;

/// <summary>What the cookie of a signed-in person says: name, role and rights. Pages hide by it; use cases look afresh.</summary>
internal sealed class PersonClaims(
    UserManager<Person> people, IOptions<IdentityOptions> options, IDbContextFactory<NurseryDbContext> databases)
    : UserClaimsPrincipalFactory<Person>(people, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Person user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim(ClaimNames.DisplayName, user.DisplayName));
        await using var database = await databases.CreateDbContextAsync();
        var role = await database.PersonSites.Where(row => row.PersonId == user.Id)
            .Select(row => (Role?)row.Role).FirstOrDefaultAsync();
        if (role is { } known)
        {
            identity.AddClaim(new Claim(ClaimNames.Role, known.ToString()));
            identity.AddClaims(RoleRights.Of(known).Select(right => new Claim(ClaimNames.Right, right.ToString())));
        }

        return identity;
    }
}
