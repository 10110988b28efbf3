using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Nursery.Planning.Search;

/// <summary>Spaces taken, by row (an area, or the hardening pool as the last row) and day.</summary>
internal sealed class DailyLoads
{
    /// <summary>Most spaces of a row that can be counted.</summary>
    public const int Most = 32000;
    private const int Lane = 16;
    private static readonly Vector256<short>[] FirstLanes = MakeFirstLanes();
    private readonly short[] _taken;
    private readonly int _stride;

    public DailyLoads(int rows, int days)
    {
        // Beyond the last day there is a lane of nothing, so that a read of a whole lane never leaves the row.
        _stride = ((days + Lane - 1) / Lane * Lane) + Lane;
        _taken = new short[rows * _stride];
    }

    /// <summary>Whether no day from one to the first no longer asked for has more than <paramref name="most"/> taken.</summary>
    public bool AtMost(int row, int from, int to, int most)
    {
        if (most < 0)
        {
            return false;
        }

        ref var start = ref MemoryMarshal.GetArrayDataReference(_taken);
        var at = (nuint)((row * _stride) + from);
        var left = to - from;
        var limit = Vector256.Create((short)most);
        while (left >= Lane)
        {
            if (Vector256.GreaterThanAny(Vector256.LoadUnsafe(ref start, at), limit))
            {
                return false;
            }

            at += Lane;
            left -= Lane;
        }

        return left <= 0 || !Vector256.GreaterThanAny(Vector256.LoadUnsafe(ref start, at) & FirstLanes[left], limit);
    }

    public void Add(int row, int from, int to, int spaces)
    {
        foreach (ref var taken in _taken.AsSpan((row * _stride) + from, to - from))
        {
            taken += (short)spaces;
        }
    }

    public int On(int row, int day) => _taken[(row * _stride) + day];

    private static Vector256<short>[] MakeFirstLanes()
    {
        var lanes = new Vector256<short>[Lane];
        for (var count = 0; count < Lane; count++)
        {
            var keep = new short[Lane];
            Array.Fill(keep, (short)-1, 0, count);
            lanes[count] = Vector256.Create(keep);
        }

        return lanes;
    }
}
