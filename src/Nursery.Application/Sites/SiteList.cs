using System.Globalization;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sites;

/// <summary>The site itself, one row.</summary>
internal sealed class SiteList : SetupList<Site>
{
    private static readonly Dictionary<string, Units> UnitWords = new() { ["us"] = Units.UsCustomary, ["metric"] = Units.Metric };

    private static readonly Dictionary<string, PaperSize> Papers = new()
    {
        ["letter"] = PaperSize.Letter,
        ["a4"] = PaperSize.A4,
        ["roll"] = PaperSize.Roll,
    };

    public override SetupListInfo Info { get; } = new("site", "Site", "site", Right.Plan,
    [
        new("code", "Code"),
        new("name", "Name"),
        new("time_zone", "Time zone") { Hint = "of the IANA time zone database: America/Chicago" },
        new("units", "Units", ColumnKind.Word) { Words = [.. UnitWords.Keys], Hint = "us: °F and inches; metric: °C and centimeters" },
        new("currency", "Currency") { Hint = "three capital letters of ISO 4217" },
        new("margin_days", "Margin", ColumnKind.Whole) { Hint = "days a batch is planned to be ready before its order's day" },
        new("paper", "Paper", ColumnKind.Word) { Words = [.. Papers.Keys] },
        new("hands", "Hands") { MayBeEmpty = true, Hint = "people for the plants, Monday to Sunday: 2 2 2 2 2 1 1; empty: assumed" },
        new("hand_minutes", "Minutes of each") { MayBeEmpty = true, Hint = "Monday to Sunday: 360 360 360 360 360 240 120; empty: assumed" },
        new("latitude", "Latitude", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "degrees north: 41.88; south is negative; the sun is reckoned from it" },
        new("longitude", "Longitude", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "degrees east: -87.63 is west" },
        new("kwh_price", "Price of a kWh", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "in hundredths of the currency: 14.5 cents" },
        new("injector_ratio", "Feed injector, 1 to", ColumnKind.Whole) { MayBeEmpty = true, IsLater = true, Hint = "parts of water to one of concentrate: 100; empty: no injector" },
        new("feed_nitrogen_percent", "Nitrogen of the feed, %", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "the first number on its label: 20" },
        Later("confidence_percent", "Chance asked for", "that a batch gives its plants, %; empty: 95"),
        Later("tray_loss_percent", "Chance to lose a tray", "a whole one, %; empty: 0.5, from memory"),
        Later("seed_price", "Price of 1,000 seeds", "where the crop has none; empty: 20, from memory"),
        Later("tray_price", "Price of a tray", "with its mix and bench space; empty: 5, from memory"),
        Later("hour_price", "Price of an hour of work", "empty: 18, from memory"),
        Later("heat_price", "Price of heat", "a tray a day; empty: 0.05, from memory"),
        new("mix_amendments", "Stirred into the mix") { MayBeEmpty = true, IsLater = true, Hint = "grams a cubic meter: gypsum 600, limestone 2000" },
        Later("mix_package_l", "Bale or bag of mix", "as sold, liters; empty: 107, a bale of 3.8 cu ft"),
        Later("mix_expansion", "Loosened mix", "times the volume as sold, 1–3; empty: 2, from memory"),
    ])
    { IsSingle = true };

    private static SetupColumn Later(string name, string label, string hint) =>
        new(name, label, ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = hint };

    public override Dictionary<string, Site> Of(NurseryRows rows) => rows.Sites;

    public override Site? Read(CsvRow line, NurseryRows rows, Site? known)
    {
        if (known is null)
        {
            line.Fail("code", $"the code of this site, {rows.Site.Code}");
            return null;
        }

        return SiteOf(line, known, rows.Time);
    }

    internal static Site SiteOf(CsvRow line, Site? known, TimeProvider time, bool demo = false)
    {
        var site = new Site
        {
            Id = known?.Id ?? NewId.Of<Site>(time),
            Code = line.Text("code", 20),
            Name = line.Text("name"),
            TimeZone = line.Text("time_zone"),
            Units = line.Word("units", UnitWords),
            Currency = line.Text("currency", 3),
            MarginDays = line.Whole("margin_days", 0, 60),
            Paper = line.Word("paper", Papers),
            Hands = Week(line, "hands", 1000),
            HandMinutes = Week(line, "hand_minutes", 1440),
            Latitude = line.NumberOrEmpty("latitude", -90, 90),
            Longitude = line.NumberOrEmpty("longitude", -180, 180),
            KwhPrice = line.NumberOrEmpty("kwh_price", 0, 10_000),
            InjectorRatio = line.WholeOrEmpty("injector_ratio", 1, 1000),
            FeedNitrogenPercent = line.NumberOrEmpty("feed_nitrogen_percent", 0.1m, 60),
            SowingConfidence = line.NumberOrEmpty("confidence_percent", 50, 99.99m) / 100,
            TrayLoss = line.NumberOrEmpty("tray_loss_percent", 0, 50) / 100,
            SeedPrice = line.NumberOrEmpty("seed_price", 0, 1_000_000),
            TrayPrice = line.NumberOrEmpty("tray_price", 0, 1_000_000),
            HourPrice = line.NumberOrEmpty("hour_price", 0, 1_000_000),
            HeatPrice = line.NumberOrEmpty("heat_price", 0, 1_000_000),
            MixAmendments = line.IsEmpty("mix_amendments") ? null : line.Text("mix_amendments", 200),
            MixPackageLiters = line.NumberOrEmpty("mix_package_l", 1, 10_000),
            MixExpansion = line.NumberOrEmpty("mix_expansion", 1, 3),
            IsDemo = known?.IsDemo ?? demo,
            PublicAddress = known?.PublicAddress,
            Version = (known?.Version ?? 0) + 1,
        };
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(site.TimeZone) is null)
        {
            line.Fail("time_zone", "a zone of the IANA time zone database, such as America/Chicago");
        }

        if (site.Latitude is null != site.Longitude is null)
        {
            line.Fail(site.Latitude is null ? "latitude" : "longitude", "given together with the other one, or both empty");
        }

        if (site.MixAmendments is { } amendments && Sowings.MixRecipe.Read(amendments) is null)
        {
            line.Fail("mix_amendments", "names with grams a cubic meter, 0–100,000, with commas between: gypsum 600, limestone 2000");
        }

        if (site.Hands is null != site.HandMinutes is null)
        {
            line.Fail(site.Hands is null ? "hands" : "hand_minutes", "given together with the other one, or both empty");
        }

        if (site.Currency.Length != 3 || !site.Currency.All(char.IsAsciiLetterUpper))
        {
            line.Fail("currency", "three capital letters of ISO 4217");
        }

        return site;
    }

    protected override IReadOnlyDictionary<string, string> Fields(Site row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["name"] = row.Name,
        ["time_zone"] = row.TimeZone,
        ["units"] = Cell.Of(row.Units, UnitWords),
        ["currency"] = row.Currency,
        ["margin_days"] = Cell.Of(row.MarginDays),
        ["paper"] = Cell.Of(row.Paper, Papers),
        ["hands"] = string.Join(' ', row.Hands ?? []),
        ["hand_minutes"] = string.Join(' ', row.HandMinutes ?? []),
        ["latitude"] = Cell.Of(row.Latitude),
        ["longitude"] = Cell.Of(row.Longitude),
        ["kwh_price"] = Cell.Of(row.KwhPrice),
        ["injector_ratio"] = Cell.Of(row.InjectorRatio),
        ["feed_nitrogen_percent"] = Cell.Of(row.FeedNitrogenPercent),
        ["confidence_percent"] = Cell.Of(row.SowingConfidence * 100),
        ["tray_loss_percent"] = Cell.Of(row.TrayLoss * 100),
        ["seed_price"] = Cell.Of(row.SeedPrice),
        ["tray_price"] = Cell.Of(row.TrayPrice),
        ["hour_price"] = Cell.Of(row.HourPrice),
        ["heat_price"] = Cell.Of(row.HeatPrice),
        ["mix_amendments"] = row.MixAmendments ?? "",
        ["mix_package_l"] = Cell.Of(row.MixPackageLiters),
        ["mix_expansion"] = Cell.Of(row.MixExpansion),
    };

    /// <summary>Seven whole numbers, Monday first.</summary>
    private static int[]? Week(CsvRow line, string field, int most)
    {
        if (line.IsEmpty(field))
        {
            return null;
        }

        var parts = line[field].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var days = parts.Select(part => int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var day) ? day : -1).ToArray();
        if (days.Length != 7 || days.Any(day => day < 0 || day > most))
        {
            line.Fail(field, string.Create(CultureInfo.InvariantCulture, $"seven whole numbers, 0–{most}, Monday to Sunday, with spaces between"));
        }

        return days;
    }

    protected override Guid IdOf(Site row) => row.Id.Value;

    protected override int VersionOf(Site row) => row.Version;

    protected override LocalDate? RetiredOn(Site row) => null;

    public override Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation) =>
        throw new InUse($"Everything of {rows.Site.Name} hangs on the site: it cannot be retired here");
}
