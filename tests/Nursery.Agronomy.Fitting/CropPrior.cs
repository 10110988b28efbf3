using System.Globalization;

namespace Nursery.Agronomy.Fitting;

/// <summary>What is known of a crop before its days are seen: its class, and optimum and maximum of tests/reference/02b where that lists
/// it or a close relative. Class values (°C; from memory and compared over all crops at once, never for one): base 1.5 ± 1.2 cool, 7 ± 2
/// middle, 10.5 ± 2 warm; optimum 4 above the printed one ± 2, as most crops still gain there; ceiling 5 above the printed maximum ± 3,
/// as that still gives seedlings of most crops. Where nothing is printed: optimum 25 cool, 29 others; maximum 35, 38, 40.</summary>
public sealed record CropPrior(string Class, double Base, double BaseSd, double Optimum, double OptimumSd, double Ceiling, double CeilingSd)
{
    private static readonly Dictionary<string, (string Class, string? Relative, bool Slow)> Crops = new()
    {
        ["Asparagus"] = ("middle", "Asparagus", true),
        ["Bean, lima"] = ("middle", "Bean", false),
        ["Bean, snap"] = ("middle", "Bean", false),
        ["Beet"] = ("cool", "Chard, Swiss", false),
        ["Cabbage"] = ("cool", "Cabbage", false),
        ["Carrot"] = ("cool", "Carrot", true),
        ["Cauliflower"] = ("cool", "Cabbage", false),
        ["Celery"] = ("cool", null, true),
        ["Corn, sweet"] = ("middle", "Corn", false),
        ["Cucumber"] = ("warm", "Cucumber", false),
        ["Eggplant"] = ("warm", "Eggplant", true),
        ["Lettuce"] = ("cool", "Lettuce", false),
        ["Muskmelon"] = ("warm", "Cantaloupe", false),
        ["Okra"] = ("warm", null, false),
        ["Onion"] = ("cool", "Onion", false),
        ["Parsley"] = ("cool", "Parsley", true),
        ["Parsnip"] = ("cool", null, true),
        ["Pea"] = ("cool", "Pea", false),
        ["Pepper"] = ("warm", "Pepper", true),
        ["Radish"] = ("cool", "Radish", false),
        ["Spinach"] = ("cool", "Spinach", false),
        ["Tomato"] = ("middle", "Tomato", false),
        ["Turnip"] = ("cool", "Turnip", false),
        ["Watermelon"] = ("warm", "Cantaloupe", false),
    };

    public static bool IsSlow(string crop) => Crops[crop].Slow;

    public static CropPrior Of(string crop, string folder)
    {
        var (kind, relative, _) = Crops[crop];
        var printed = CsvTable.Read(Path.Combine(folder, "02b_cardinal_soil_temperatures.csv")).Where(row => row["crop"] == relative).ToList();
        var (low, lowSd, best, high) = kind switch
        {
            "cool" => (1.5, 1.2, 25.0, 35.0),
            "middle" => (7.0, 2.0, 29.0, 38.0),
            _ => (10.5, 2.0, 29.0, 40.0),
        };
        var optimum = (Celsius(printed, "optimum_F") ?? best) + 4;
        var ceiling = Celsius(printed, "max_F") is { } maximum ? maximum + 5 : high + 5;
        return new CropPrior(kind, low, lowSd, optimum, 2, ceiling, 3);
    }

    private static double? Celsius(IEnumerable<IReadOnlyDictionary<string, string>> rows, string column) => rows
        .Where(row => row[column].Length > 0)
        .Select(row => (double?)((double.Parse(row[column], CultureInfo.InvariantCulture) - 32) / 1.8))
        .FirstOrDefault();
}
