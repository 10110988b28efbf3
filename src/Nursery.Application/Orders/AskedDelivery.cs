using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Application.Orders;

/// <summary>Plants of an order line wanted on a day.</summary>
public sealed record AskedDelivery(LocalDate ReadyOn, int Plants)
{
    public const string Allowed = "two or more of 'YYYY-MM-DD plants' with ; between, days rising, the first on the ready day, together the plants of the line";

    /// <summary>'2026-05-15 200; 2026-05-29 120'; null when it cannot be read so.</summary>
    public static IReadOnlyList<AskedDelivery>? Read(string text)
    {
        var deliveries = new List<AskedDelivery>();
        foreach (var part in text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (part.Split(' ', StringSplitOptions.RemoveEmptyEntries) is not [var day, var plants]
                || LocalDatePattern.Iso.Parse(day) is not { Success: true } read
                || !int.TryParse(plants, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                return null;
            }

            deliveries.Add(new AskedDelivery(read.Value, number));
        }

        return deliveries;
    }

    public static string Write(IEnumerable<AskedDelivery> deliveries) => string.Join("; ", deliveries.Select(delivery =>
        string.Create(CultureInfo.InvariantCulture, $"{LocalDatePattern.Iso.Format(delivery.ReadyOn)} {delivery.Plants}")));

    /// <summary>Whether these are the deliveries of a line of so many plants on a day; none are always right.</summary>
    public static bool AreOf(int plants, LocalDate readyOn, IReadOnlyList<AskedDelivery> deliveries) =>
        deliveries.Count == 0
        || (deliveries.Count >= 2
            && deliveries[0].ReadyOn == readyOn
            && deliveries[^1].ReadyOn.Year <= 2199
            && deliveries.All(delivery => delivery.Plants >= 1)
            && deliveries.Sum(delivery => (long)delivery.Plants) == plants
            && deliveries.Zip(deliveries.Skip(1)).All(pair => pair.First.ReadyOn < pair.Second.ReadyOn));
}
