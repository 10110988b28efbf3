using NodaTime;

namespace Nursery.Domain.Sites;

/// <summary>Hands at work by day of the week, Monday first, and the minutes each has for the plants.</summary>
public sealed record WorkWeek(IReadOnlyList<int> Hands, IReadOnlyList<int> Minutes)
{
    /// <summary>Two people on working days, one on Saturday, one on Sunday to water: assumed, for no site told its own (from memory).</summary>
    public static WorkWeek Assumed { get; } = new([2, 2, 2, 2, 2, 1, 1], [360, 360, 360, 360, 360, 240, 120]);

    public bool IsAssumed => ReferenceEquals(this, Assumed);

    /// <summary>Minutes of all hands on a day.</summary>
    public int AvailableOn(LocalDate day)
    {
        var weekday = (int)day.DayOfWeek - 1;
        return Hands[weekday] * Minutes[weekday];
    }
}
