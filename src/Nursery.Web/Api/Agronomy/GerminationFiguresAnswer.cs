using Nursery.Agronomy;
using Nursery.Agronomy.Germination;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Figures of daily counts; intervals are [low, high].</summary>
internal sealed record GerminationFiguresAnswer(
    double FinalFraction,
    IReadOnlyList<double> Wilson95,
    IReadOnlyList<double> Jeffreys95,
    IReadOnlyList<double> ClopperPearson95,
    double? T50Coolbear,
    double? T50Farooq,
    double? MeanTime,
    double? TimeVariance,
    double? MeanRate,
    double? CoefficientOfVelocity,
    double? SynchronyZ,
    double? UncertaintyU,
    double? SpeedIndex,
    How How)
{
    public static GerminationFiguresAnswer Of(GerminationFigures figures, How how) => new(
        figures.FinalFraction.Value, Ends(figures.Wilson95), Ends(figures.Jeffreys95), Ends(figures.ClopperPearson95), figures.T50Coolbear,
        figures.T50Farooq, figures.MeanTime, figures.TimeVariance, figures.MeanRate, figures.CoefficientOfVelocity, figures.SynchronyZ,
        figures.UncertaintyU, figures.SpeedIndex, how);

    private static double[] Ends((Fraction Low, Fraction High) interval) => [interval.Low.Value, interval.High.Value];
}
