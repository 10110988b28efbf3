namespace Nursery.Planning.Search;

/// <summary>The random source, written out so that a seed gives the same plan on every runtime: SplitMix64, G. L. Steele, D. Lea
/// and C. H. Flood, Fast Splittable Pseudorandom Number Generators, OOPSLA 2014 (constants from memory).</summary>
public sealed class SplitMix(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            var mixed = _state;
            mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return mixed ^ (mixed >> 31);
        }
    }

    /// <summary>0 up to, not with, <paramref name="end"/>, which is 1 or more.</summary>
    public int Below(int end) => (int)(((Next() >> 32) * (ulong)end) >> 32);

    /// <summary>0 or above and below 1.</summary>
    public double Unit() => (Next() >> 11) * (1.0 / 9007199254740992.0);

    public bool Chance(double probability) => Unit() < probability;

    public void Shuffle(Span<int> items)
    {
        for (var index = items.Length - 1; index > 0; index--)
        {
            var other = Below(index + 1);
            (items[index], items[other]) = (items[other], items[index]);
        }
    }
}
