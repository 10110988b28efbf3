namespace Nursery.Application.Access;

public static class ClaimNames
{
    public const string DisplayName = "nursery:name";
    public const string Role = "nursery:role";

    /// <summary>One claim a right, the name of a <see cref="Domain.People.Right"/>.</summary>
    public const string Right = "nursery:right";
}
