namespace Nursery.Domain.People;

/// <summary>The one table of who may do what.</summary>
public static class RoleRights
{
    public static IReadOnlySet<Right> Of(Role role) => role switch
    {
        Role.Administrator => new HashSet<Right> { Right.Read, Right.Plan, Right.Ledger, Right.Admin },
        Role.HeadGrower => new HashSet<Right> { Right.Read, Right.Plan, Right.Ledger },
        Role.Staff => new HashSet<Right> { Right.Read, Right.Ledger },
        Role.Manager => new HashSet<Right> { Right.Read },
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "a role without rights"),
    };
}
