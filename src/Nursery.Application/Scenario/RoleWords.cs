using Nursery.Domain.People;

namespace Nursery.Application.Scenario;

/// <summary>How files spell the roles.</summary>
internal static class RoleWords
{
    public static IReadOnlyDictionary<string, Role> All { get; } = new Dictionary<string, Role>
    {
        ["administrator"] = Role.Administrator,
        ["head-grower"] = Role.HeadGrower,
        ["staff"] = Role.Staff,
        ["manager"] = Role.Manager,
    };

    public static string Of(Role role) => All.Single(pair => pair.Value == role).Key;
}
