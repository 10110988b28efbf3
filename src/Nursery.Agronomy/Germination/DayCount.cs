namespace Nursery.Agronomy.Germination;

/// <summary>Seeds that germinated, new on a day.</summary>
/// <param name="Day">Days since sowing, 0 to 400.</param>
/// <param name="Germinated">New that day, 0 or more.</param>
public sealed record DayCount(double Day, int Germinated);
