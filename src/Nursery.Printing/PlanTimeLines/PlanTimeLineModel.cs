namespace Nursery.Printing.PlanTimeLines;

/// <summary>A plan on a time line: zones and benches over the weeks of its season.</summary>
/// <param name="Title">Whose it is and whether it is in force.</param>
/// <param name="Subtitle">When it was made, by whom.</param>
/// <param name="Weeks">First day of each week, in words; days of bars count from the first one's.</param>
/// <param name="Sections">Such as heat zones, then benches.</param>
/// <param name="Notes">What does not stand on the line.</param>
public sealed record PlanTimeLineModel(
    Imprint Imprint,
    Paper Paper,
    string Title,
    string Subtitle,
    IReadOnlyList<string> Weeks,
    IReadOnlyList<TimeLineSection> Sections,
    IReadOnlyList<TimeLineNote> Notes);

/// <summary>Rows of a kind, with how full they get.</summary>
public sealed record TimeLineSection(string Name, IReadOnlyList<TimeLineRow> Rows, IReadOnlyList<TimeLineLoad> Loads);

/// <summary>A zone or a bench.</summary>
public sealed record TimeLineRow(string Name, string Below, IReadOnlyList<TimeLineBar> Bars, IReadOnlyList<TimeLineSetpoint> Setpoints);

/// <summary>Trays on a run of spaces.</summary>
/// <param name="Code">Of the batch: always printed.</param>
/// <param name="Spaces">Such as 1–12: always printed.</param>
/// <param name="Variety">Printed where there is room.</param>
/// <param name="From">Day, from 0.</param>
/// <param name="To">First day no longer.</param>
/// <param name="Stands">It stands there already, or is not the plan's to move.</param>
public sealed record TimeLineBar(string Code, string Spaces, string Variety, int From, int To, bool Stands);

/// <summary>What a zone is told, from a day to the first day no longer.</summary>
public sealed record TimeLineSetpoint(int From, int To, string Words);

/// <summary>Spaces taken on the fullest day of each week.</summary>
public sealed record TimeLineLoad(string Name, int Capacity, IReadOnlyList<int> Weeks);

/// <summary>A heading with a paragraph for each entry.</summary>
public sealed record TimeLineNote(string Head, IReadOnlyList<string> Lines);
