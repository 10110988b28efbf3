namespace Nursery.Printing.PickLists;

/// <summary>A batch to take plants from.</summary>
/// <param name="Plants">How many from here, such as "144 plants".</param>
/// <param name="Trays">Such as "2 trays of 72 and 12 cells".</param>
/// <param name="Where">Such as "House 2 · bench 2A · spaces 1–12"; or where it is not.</param>
/// <param name="Stage">Null for a substitute's variety of which nothing stands here.</param>
/// <param name="Instead">Whether it is a substitute: only taken when what was ordered is short.</param>
public sealed record PickPlace(
    string Code, string Variety, string Plants, string Trays, string Where, StagePattern? Stage, bool Instead = false);
