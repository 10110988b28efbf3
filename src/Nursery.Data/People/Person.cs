using Microsoft.AspNetCore.Identity;

namespace Nursery.Data.People;

/// <summary>Someone who signs in. What they may do stands in <see cref="PersonSite"/>.</summary>
public sealed class Person : IdentityUser<Guid>
{
    public required string DisplayName { get; set; }
}
