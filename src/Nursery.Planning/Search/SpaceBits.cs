using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Nursery.Planning.Search;

/// <summary>Which spaces are taken: a bit for every area, day and space. A stay asks for spaces free on all its days at once.</summary>
internal sealed class SpaceBits
{
    private const int Step = 4;
    private readonly ulong[] _bits;
    private readonly int[] _start;
    private readonly int[] _words;
    private readonly int[] _spaces;
    private readonly ulong[] _first;
    private readonly ulong[] _second;
    private readonly ulong[] _other;

    public SpaceBits(int[] spaces, int days)
    {
        _spaces = spaces;
        _start = new int[spaces.Length];
        _words = new int[spaces.Length];
        var total = 0;
        for (var area = 0; area < spaces.Length; area++)
        {
            _start[area] = total;
            _words[area] = (spaces[area] + (64 * Step) - 1) / (64 * Step) * Step;
            total += _words[area] * days;
        }

        _bits = new ulong[total];
        var most = _words.Length == 0 ? Step : _words.Max();
        (_first, _second, _other) = (new ulong[most], new ulong[most], new ulong[most]);
    }

    public void Set(int area, int from, int to, int first, int count, bool taken)
    {
        var words = _words[area];
        var firstWord = first >> 6;
        var lastWord = (first + count - 1) >> 6;
        for (var word = firstWord; word <= lastWord; word++)
        {
            var mask = ulong.MaxValue;
            mask &= word == firstWord ? ulong.MaxValue << (first & 63) : ulong.MaxValue;
            mask &= word == lastWord ? ulong.MaxValue >> (63 - ((first + count - 1) & 63)) : ulong.MaxValue;
            var at = _start[area] + (from * words) + word;
            for (var day = from; day < to; day++, at += words)
            {
                _bits[at] = taken ? _bits[at] | mask : _bits[at] & ~mask;
            }
        }
    }

    /// <summary>Whether a run is free on every day from one to the first no longer asked for.</summary>
    public bool IsFree(int area, int from, int to, int first, int count)
    {
        if (first < 0 || first + count > _spaces[area])
        {
            return false;
        }

        FreeOn(area, from, to, _first);
        return Next(first, taken: true, first + count) == first + count;
    }

    /// <summary>First space of a run of <paramref name="before"/> spaces free from a day to the spacing day that lies at one end of a
    /// run of <paramref name="after"/> free from then on; -1 when there is none.</summary>
    /// <param name="firstAfter">First space of the run after spacing.</param>
    public int Find(int area, int from, int spacing, int to, int before, int after, out int firstAfter)
    {
        var words = _words[area];
        if (before == after)
        {
            FreeOn(area, from, to, _first);
            firstAfter = RunStart(_first.AsSpan(0, words), before);
            return firstAfter;
        }

        FreeOn(area, from, spacing, _first);
        FreeOn(area, spacing, to, _second);
        var early = _first.AsSpan(0, words);
        var late = _second.AsSpan(0, words);
        Erode(early, before);
        Erode(late, after);

        // The early run at the low end of the late one, else at its high end.
        var lowest = Lowest(early, late);
        if (lowest >= 0)
        {
            firstAfter = lowest;
            return lowest;
        }

        var shifted = _other.AsSpan(0, words);
        ShiftUp(late, after - before, shifted);
        lowest = Lowest(early, shifted);
        firstAfter = lowest - (after - before);
        return lowest;
    }

    /// <summary>Adds the runs free on every day to a list, in order.</summary>
    public void AddFreeRuns(int area, int from, int to, List<Run> runs)
    {
        FreeOn(area, from, to, _first);
        for (var space = 0; space < _spaces[area];)
        {
            var start = Next(space, taken: false, _spaces[area]);
            var end = Next(start, taken: true, _spaces[area]);
            if (end > start)
            {
                runs.Add(new Run((short)area, (short)start, (short)(end - start), 0, 0));
            }

            space = end;
        }
    }

    private int Next(int space, bool taken, int end)
    {
        while (space < end)
        {
            var word = (taken ? ~_first[space >> 6] : _first[space >> 6]) >> (space & 63);
            if (word != 0)
            {
                return Math.Min(end, space + BitOperations.TrailingZeroCount(word));
            }

            space = ((space >> 6) + 1) << 6;
        }

        return end;
    }

    private void FreeOn(int area, int from, int to, ulong[] free)
    {
        var words = _words[area];
        ref var bits = ref MemoryMarshal.GetArrayDataReference(_bits);
        ref var result = ref MemoryMarshal.GetArrayDataReference(free);
        for (var column = 0; column < words; column += Step)
        {
            var taken = Vector256<ulong>.Zero;
            var at = (nuint)(_start[area] + (from * words) + column);
            for (var day = from; day < to; day++, at += (nuint)words)
            {
                taken |= Vector256.LoadUnsafe(ref bits, at);
            }

            (~taken).StoreUnsafe(ref result, (nuint)column);
        }

        // Beyond the last space nothing is free.
        var last = _spaces[area] >> 6;
        for (var word = last; word < words; word++)
        {
            free[word] &= word == last ? (1UL << (_spaces[area] & 63)) - 1 : 0;
        }
    }

    private static int RunStart(Span<ulong> free, int count)
    {
        Erode(free, count);
        for (var word = 0; word < free.Length; word++)
        {
            if (free[word] != 0)
            {
                return (word << 6) + BitOperations.TrailingZeroCount(free[word]);
            }
        }

        return -1;
    }

    /// <summary>Keeps a bit only where it and the next count - 1 are set.</summary>
    private static void Erode(Span<ulong> free, int count)
    {
        for (var have = 1; have < count;)
        {
            var shift = Math.Min(have, count - have);
            AndShiftedDown(free, shift);
            have += shift;
        }
    }

    private static void AndShiftedDown(Span<ulong> bits, int shift)
    {
        var (skip, small) = (shift >> 6, shift & 63);
        for (var word = 0; word < bits.Length; word++)
        {
            var low = word + skip < bits.Length ? bits[word + skip] : 0;
            var high = word + skip + 1 < bits.Length ? bits[word + skip + 1] : 0;
            bits[word] &= small == 0 ? low : (low >> small) | (high << (64 - small));
        }
    }

    private static void ShiftUp(Span<ulong> bits, int shift, Span<ulong> result)
    {
        var (skip, small) = (shift >> 6, shift & 63);
        for (var word = bits.Length - 1; word >= 0; word--)
        {
            var high = word - skip >= 0 ? bits[word - skip] : 0;
            var low = word - skip - 1 >= 0 ? bits[word - skip - 1] : 0;
            result[word] = small == 0 ? high : (high << small) | (low >> (64 - small));
        }
    }

    private static int Lowest(Span<ulong> some, Span<ulong> others)
    {
        for (var word = 0; word < some.Length; word++)
        {
            if ((some[word] & others[word]) is not 0 and var both)
            {
                return (word << 6) + BitOperations.TrailingZeroCount(both);
            }
        }

        return -1;
    }
}
