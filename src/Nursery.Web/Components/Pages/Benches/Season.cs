using NodaTime;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>The days the slider runs over.</summary>
public sealed record Season(LocalDate Today)
{
    public const int DaysBack = 28;
    public const int DaysOn = 196;

    public LocalDate First => Today.PlusDays(-DaysBack);

    public LocalDate Last => Today.PlusDays(DaysOn);

    public int Days => DaysBack + DaysOn + 1;

    public LocalDate Within(LocalDate day) => LocalDate.Max(First, LocalDate.Min(Last, day));

    public int Index(LocalDate day) => Period.DaysBetween(First, day);

    /// <summary>The firsts of months inside, for the scale.</summary>
    public IEnumerable<LocalDate> Months()
    {
        for (var first = First.With(DateAdjusters.StartOfMonth).PlusMonths(1); first <= Last; first = first.PlusMonths(1))
        {
            yield return first;
        }
    }
}
