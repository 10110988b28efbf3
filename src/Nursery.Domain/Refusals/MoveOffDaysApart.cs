using System.Globalization;
using NodaTime;

namespace Nursery.Domain.Refusals;

/// <summary>Trays leave the heat whole: the early ones would stretch while the late ones still need it.</summary>
public sealed class MoveOffDaysApart(string early, LocalDate earlyOn, string late, LocalDate lateOn, int most) : Refusal(string.Create(
    CultureInfo.InvariantCulture,
    $"{early} leaves the heat {earlyOn:d MMMM}, {late} {lateOn:d MMMM}: {Period.DaysBetween(earlyOn, lateOn)} days apart, at most {most} in one tray"))
{
    public override RefusalKind Kind => RefusalKind.Rule;
}
