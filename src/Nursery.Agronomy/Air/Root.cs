namespace Nursery.Agronomy.Air;

internal static class Root
{
    /// <summary>Where a rising function is 0, halving 60 times; an end where it is not.</summary>
    public static double Of(Func<double, double> rising, double low, double high)
    {
        for (var step = 0; step < 60; step++)
        {
            var middle = (low + high) / 2;
            (low, high) = rising(middle) < 0 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
