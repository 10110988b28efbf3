namespace Nursery.Planning.Search;

/// <summary>A batch's mode and spaces. Spaces count from 0 here.</summary>
internal struct Place
{
    /// <summary>Index into the mode table, -1 without a place.</summary>
    public int Mode;

    /// <summary>Cents beyond the mode's own cost: splits and changed places.</summary>
    public int Extra;
    public short Zone;
    public short ZoneFirst;
    public short Bench;
    public short BenchFirst;
    public short BenchFirstAfter;

    /// <summary>All its runs when it does not stand in one on heat and one on a bench; else null.</summary>
    public Parts? Parts;

    public static Place None => new() { Mode = -1 };
}

internal sealed record Parts(Run[] Heat, Run[] Benches);

internal readonly record struct Run(short Area, short First, short Count, short FirstAfter, short CountAfter);
