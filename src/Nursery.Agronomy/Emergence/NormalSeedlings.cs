namespace Nursery.Agronomy.Emergence;

/// <summary>Which part of the seed that can grow gives a normal seedling at a temperature: percent normal ÷ its maximum, straight lines
/// between the printed temperatures, nothing at base and ceiling where the table does not reach so far.
/// Source: percentage of normal vegetable seedlings at different temperatures, table of J. F. Harrington.</summary>
public sealed class NormalSeedlings
{
    private readonly (double Celsius, double Share)[] _knots;

    internal NormalSeedlings(IReadOnlyList<PrintedDays> printed, RateModel rate)
    {
        var known = printed.Where(point => point.Normal is not null)
            .Select(point => (Celsius: point.Temperature.C, Share: point.Normal!.Value.Value)).OrderBy(point => point.Celsius).ToList();
        var most = known.Max(point => point.Share);
        var knots = known.Select(point => (point.Celsius, Share: point.Share / most)).ToList();
        if (knots[0].Share > 0 && rate.Base.C < knots[0].Celsius)
        {
            knots.Insert(0, (rate.Base.C, 0));
        }

        if (knots[^1].Share > 0 && rate.Ceiling.C > knots[^1].Celsius)
        {
            knots.Add((rate.Ceiling.C, 0));
        }

        _knots = [.. knots];
    }

    /// <summary>0 to 1; 1 at the printed temperature that suits the crop best.</summary>
    public Fraction At(Temperature temperature)
    {
        var celsius = temperature.C;
        if (celsius <= _knots[0].Celsius)
        {
            return new Fraction(celsius < _knots[0].Celsius ? 0 : _knots[0].Share);
        }

        for (var next = 1; next < _knots.Length; next++)
        {
            if (celsius <= _knots[next].Celsius)
            {
                var (from, to) = (_knots[next - 1], _knots[next]);
                return new Fraction(Math.Clamp(
                    from.Share + ((to.Share - from.Share) * (celsius - from.Celsius) / (to.Celsius - from.Celsius)), 0, 1));
            }
        }

        return new Fraction(0);
    }
}
