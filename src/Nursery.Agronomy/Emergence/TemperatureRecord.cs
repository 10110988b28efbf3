namespace Nursery.Agronomy.Emergence;

/// <summary>What temperature the growing mix had since the first watering on heat: each holds from its day to the next.</summary>
public sealed class TemperatureRecord
{
    private readonly (double Day, double Celsius)[] _steps;

    /// <param name="steps">Days since sowing, 0 to 366, each later than the one before, the first at 0; at least one.</param>
    /// <exception cref="InputOutOfRange">A day outside its range or out of order.</exception>
    public TemperatureRecord(IReadOnlyList<(double Day, Temperature Temperature)> steps)
    {
        InputOutOfRange.Within(steps.Count, 1, 10_000, "temperatures", "temperatures");
        for (var index = 0; index < steps.Count; index++)
        {
            var day = InputOutOfRange.Within(steps[index].Day, 0, 366, "day", "days");
            if (index == 0 ? day != 0 : day <= steps[index - 1].Day)
            {
                throw InputOutOfRange.Of(day, "day", "days", "0 first, each later than the one before");
            }
        }

        _steps = [.. steps.Select(step => (step.Day, step.Temperature.C))];
    }

    /// <summary>One temperature all the time.</summary>
    public static TemperatureRecord Constant(Temperature temperature) => new([(0, temperature)]);

    public Temperature First => Temperature.FromDegrees(_steps[0].Celsius);

    public Temperature Last => Temperature.FromDegrees(_steps[^1].Celsius);

    /// <summary>Progress from sowing to a day: the rate summed over the record; half of the final stand is up at 1.</summary>
    /// <param name="rate">The crop's rate.</param>
    /// <param name="day">Days since sowing, 0 or more.</param>
    public double ProgressAt(RateModel rate, double day)
    {
        InputOutOfRange.Within(day, 0, double.PositiveInfinity, nameof(day), "days");
        var progress = 0d;
        for (var index = 0; index < _steps.Length && _steps[index].Day < day; index++)
        {
            var until = index + 1 < _steps.Length ? Math.Min(day, _steps[index + 1].Day) : day;
            progress += (until - _steps[index].Day) * rate.RateAt(_steps[index].Celsius);
        }

        return progress;
    }

    /// <summary>The day on which a progress is reached, the last temperature holding on; null when it never is.</summary>
    /// <param name="rate">The crop's rate.</param>
    /// <param name="progress">0 or more.</param>
    public double? DayOf(RateModel rate, double progress)
    {
        var left = InputOutOfRange.Within(progress, 0, double.PositiveInfinity, nameof(progress), "");
        for (var index = 0; index < _steps.Length; index++)
        {
            var speed = rate.RateAt(_steps[index].Celsius);
            var days = index + 1 < _steps.Length ? _steps[index + 1].Day - _steps[index].Day : double.PositiveInfinity;
            if (speed > 0 && left <= speed * days)
            {
                return _steps[index].Day + (left / speed);
            }

            left -= speed > 0 ? speed * days : 0;
        }

        return null;
    }
}
