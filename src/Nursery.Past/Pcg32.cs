namespace Nursery.Past;

/// <summary>The random source, written out so that the same seed gives the same numbers on every runtime: PCG-XSH-RR 64/32,
/// M. E. O'Neill, PCG: A Family of Simple Fast Space-Efficient Statistically Good Algorithms for Random Number Generation,
/// Harvey Mudd College HMC-CS-2014-0905, 2014.</summary>
public sealed class Pcg32
{
    private const ulong Multiplier = 6364136223846793005;
    private readonly ulong _increment;
    private ulong _state;

    public Pcg32(ulong seed, ulong stream)
    {
        _increment = (stream << 1) | 1;
        Next();
        _state += seed;
        Next();
    }

    public uint Next()
    {
        var old = _state;
        _state = unchecked((old * Multiplier) + _increment);
        var shifted = (uint)(((old >> 18) ^ old) >> 27);
        return uint.RotateRight(shifted, (int)(old >> 59));
    }

    /// <summary>0 up to, not with, <paramref name="end"/>; the bias of the remainder is below 10⁻⁶ for the small numbers asked here.</summary>
    public int Below(int end) => (int)(Next() % (uint)end);

    /// <summary>Above 0 and below 1.</summary>
    public double Unit() => (Next() + 0.5) / 4294967296.0;

    public double Between(double low, double high) => low + ((high - low) * Unit());

    public bool Chance(double probability) => Unit() < probability;

    /// <summary>Normal with mean 0 and standard deviation 1 (Box and Muller 1958).</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(Unit())) * Math.Cos(2 * Math.PI * Unit());

    public T OneOf<T>(IReadOnlyList<T> among) => among[Below(among.Count)];
}
