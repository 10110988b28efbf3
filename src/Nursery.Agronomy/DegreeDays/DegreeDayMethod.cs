namespace Nursery.Agronomy.DegreeDays;

/// <summary>How a day's course is drawn through its minimum and maximum.</summary>
public enum DegreeDayMethod
{
    /// <summary>The mean of both, no more than the upper threshold.</summary>
    SimpleAverage,
    SingleTriangle,
    DoubleTriangle,
    SingleSine,
    DoubleSine,
}
