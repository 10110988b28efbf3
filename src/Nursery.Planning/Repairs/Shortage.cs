using System.Globalization;

namespace Nursery.Planning.Repairs;

/// <summary>What may be too small.</summary>
public enum Resource
{
    Heat,
    WarmBenches,
    CoolBenches,

    /// <summary>Warm and cool together: batches that may stand on either need one of them.</summary>
    Benches,
    Hardening,
}

/// <summary>A proof that not everything can be on time: over some weeks every batch needs at least so many spaces, wherever and whenever it
/// stands, and there are fewer.</summary>
/// <param name="FirstWeek">Of the season, from 1.</param>
/// <param name="LastWeek">The last one that counts.</param>
/// <param name="From">First day of the first week.</param>
/// <param name="To">First day after the last.</param>
/// <param name="SpacesNeeded">On an average day, rounded down.</param>
/// <param name="SpacesThere">On an average day, rounded up.</param>
/// <param name="TraysTooMany">So many trays, at least, cannot be on time.</param>
public sealed record Shortage(
    Resource Resource, int FirstWeek, int LastWeek, DateOnly From, DateOnly To, int SpacesNeeded, int SpacesThere, int TraysTooMany)
{
    public string Sentence => string.Create(
        CultureInfo.InvariantCulture,
        $"{Weeks}: {Name} short. The batches due then need at least {SpacesNeeded} spaces on an average day, you have {SpacesThere}; at least {TraysTooMany} trays cannot be on time.");

    private string Weeks => FirstWeek == LastWeek
        ? string.Create(CultureInfo.InvariantCulture, $"Week {FirstWeek}") : string.Create(CultureInfo.InvariantCulture, $"Weeks {FirstWeek} to {LastWeek}");

    private string Name => Resource switch
    {
        Resource.Heat => "heat zones are",
        Resource.WarmBenches => "warm benches are",
        Resource.CoolBenches => "cool benches are",
        Resource.Benches => "warm and cool benches together are",
        _ => "hardening is",
    };
}
