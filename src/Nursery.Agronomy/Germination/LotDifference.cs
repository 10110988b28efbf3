using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Germination;

/// <summary>Which lots of a season differ from what was expected by more than a practical margin: the interval adjusted for the number of
/// lots (Holm, Scand. J. Statistics 6: 65–70, 1979) must exclude the margin. The family is all lots of the season, so looking at some
/// of them changes no verdict.</summary>
public static class LotDifference
{
    /// <summary>Five points (common practice, no source).</summary>
    public const double PracticalMargin = 0.05;

    /// <summary>The verdict of each lot, in the order given.</summary>
    /// <param name="lots">What was found and its standard error (above 0, to 1), and what was expected.</param>
    /// <param name="margin">0 to 0.5.</param>
    /// <param name="confidence">0.5 to 0.9999.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static IReadOnlyList<LotVerdict> Of(
        IReadOnlyList<(Fraction Found, double Error, Fraction Expected)> lots, double margin = PracticalMargin, double confidence = 0.95)
    {
        InputOutOfRange.Within(margin, 0, 0.5, nameof(margin), "");
        var alpha = 1 - InputOutOfRange.Within(confidence, 0.5, 0.9999, nameof(confidence), "");
        var verdicts = new LotVerdict[lots.Count];
        var ranked = lots.Select((lot, index) => (index, Away: Away(lot, margin))).OrderByDescending(item => Math.Abs(item.Away)).ToList();
        for (var rank = 0; rank < ranked.Count; rank++)
        {
            var (index, away) = ranked[rank];
            var needed = Normal.InvCDF(0, 1, 1 - (alpha / (2 * (ranked.Count - rank))));
            if (Math.Abs(away) <= needed)
            {
                break;
            }

            verdicts[index] = away < 0 ? LotVerdict.Worse : LotVerdict.Better;
        }

        return verdicts;
    }

    /// <summary>Standard errors beyond the margin; 0 within it.</summary>
    private static double Away((Fraction Found, double Error, Fraction Expected) lot, double margin)
    {
        var error = InputOutOfRange.Above(lot.Error, 0, 1, "error", "");
        var difference = lot.Found.Value - lot.Expected.Value;
        return Math.Sign(difference) * Math.Max(0, Math.Abs(difference) - margin) / error;
    }
}
