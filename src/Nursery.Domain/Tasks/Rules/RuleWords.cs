using System.Globalization;
using NodaTime;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>How rules write days and numbers in a reason.</summary>
internal static class RuleWords
{
    public static string Day(LocalDate day) => day.ToString("d MMMM", CultureInfo.InvariantCulture);

    public static string Days(int days) => Many(days, "day", "days");

    public static string Trays(int trays) => Many(trays, "tray", "trays");

    public static string Seeds(int seeds) => Many(seeds, "seed", "seeds");

    public static string Percent(decimal fraction) => fraction.ToString("P0", CultureInfo.InvariantCulture);

    public static string Many(int count, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");
}
