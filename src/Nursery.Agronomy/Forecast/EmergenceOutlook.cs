namespace Nursery.Agronomy.Forecast;

/// <summary>What is known of a batch after its counts, kept to be asked more than once: for each order line, for each day of a curve, for a
/// resow beside it. Source: docs/agronomy/forecast.md.</summary>
public sealed class EmergenceOutlook
{
    private readonly ForecastQuestion _question;
    private readonly ForecastPosterior _posterior;
    private readonly StandPrediction _stands;

    private EmergenceOutlook(ForecastQuestion question, ForecastBeliefs beliefs, ForecastPosterior posterior)
    {
        (_question, _posterior, _stands) = (question, posterior, new StandPrediction(question, posterior, beliefs));
        var progress = posterior.ProgressTo90Percent(question);
        Forecast = new EmergenceForecast(
            _stands.FinalFraction(), _stands.Stand(), _stands.Usable(), ChanceOf(question.WantedPlants),
            question.Temperatures.DayOf(question.Rate, progress), LastResow(question, progress));
    }

    public EmergenceForecast Forecast { get; }

    /// <exception cref="InputOutOfRange">An input of the question outside its range.</exception>
    public static EmergenceOutlook Of(ForecastQuestion question)
    {
        question.Check();
        var beliefs = ForecastBeliefs.Usual(question);
        return new EmergenceOutlook(question, beliefs, ForecastPosterior.Of(question, beliefs));
    }

    /// <summary>Chance that so many plants are usable.</summary>
    /// <param name="plants">0 or more.</param>
    public Fraction ChanceOf(int plants) => new(_stands.ChanceOf(plants));

    /// <summary>Plants missing on average to a number, 0 or more.</summary>
    /// <param name="plants">Wanted, 0 or more.</param>
    public double MissingOf(int plants) => MissingOf(plants, new Moments(0, 0));

    /// <summary>Day on which half of the final emergence is up, days since sowing, nine in ten; null when the last temperature brings none.</summary>
    public Interval? DayOfHalf()
    {
        var progress = _posterior.ProgressToHalf();
        return DayOf(progress.Median) is { } median && DayOf(progress.Low) is { } low && DayOf(progress.High) is { } high
            ? new Interval(median, low, high)
            : null;
    }

    /// <summary>Seeds up on a day ÷ seeds, nine in ten: what the counts say of days past, and what comes after the last of them.</summary>
    /// <param name="day">Days since sowing, 0 to 366.</param>
    /// <exception cref="InputOutOfRange">A day outside its range.</exception>
    public Interval UpAt(double day) => _stands.UpAt(
        _question.Temperatures.ProgressAt(_question.Rate, InputOutOfRange.Within(day, 0, 366, nameof(day), "days since sowing")),
        _posterior.Chain.Now is { } now && day >= now.Day);

    internal double ChanceOf(int plants, Moments beside) => 1 - _stands.Usables.Below(plants - 0.5, beside);

    internal double MissingOf(int plants, Moments beside) => _stands.Usables.Missing(plants, beside);

    private double? DayOf(double progress) => _question.Temperatures.DayOf(_question.Rate, progress);

    private static double? LastResow(ForecastQuestion question, double progress)
    {
        if (question is not { DueDay: { } due, GrowDays: { } grow }
            || question.Rate.RateAt(question.ResowTemperature ?? question.Temperatures.Last) is not (> 0 and var speed))
        {
            return null;
        }

        return Math.Floor(due - grow - (progress / speed));
    }
}
