using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.HeatAndLight;
using Nursery.Application.HeatZones.Alarms;
using Nursery.Application.HeatZones.Readings;
using Nursery.Application.Start;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.HeatZones;

/// <summary>Readings of probes, however they come, and the alarms they raise. The clock stands at 15:00 UTC, 9:00 in Chicago.</summary>
public sealed class ReadingsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly OffsetDateTime Nine = new LocalDateTime(2026, 3, 2, 9, 0).WithOffset(Offset.FromHours(-6));

    [Fact]
    public async Task Record_ReadingsTwice_AddNothingTheSecondTime()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var readings = new ReportedReading[] { new("Z80", Nine, 26.5m), new("Z80", Hours(-2), 25m), new("Z70", Nine, 20m) };

        Assert.Equal(new RecordedReadings(3, 3), await nursery.Get<RecordReadings>().HandleAsync(readings, nursery.Staff));
        Assert.Equal(new RecordedReadings(3, 0), await nursery.Get<RecordReadings>().HandleAsync(readings, nursery.Staff));
        Assert.Equal((26.5m, 20m), (await ReadsAsync(nursery, "Z80"), await ReadsAsync(nursery, "Z70")));
    }

    [Fact]
    public async Task Record_OlderReading_IsKeptButIsNotTheLast()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var version = await VersionAsync(nursery);

        await RecordAsync(nursery, "Z80", Nine, 26.5m);
        await RecordAsync(nursery, "Z80", Hours(-5), 10m);

        Assert.Equal(26.5m, await ReadsAsync(nursery, "Z80"));
        Assert.Equal(2, (await ZoneAsync(nursery, "Z80")).Course.Count);
        Assert.Equal(version, await VersionAsync(nursery));
    }

    [Fact]
    public async Task Record_FaultyReadings_AreAllToldAndNothingIsStored()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await RecordAsync(nursery, "Z80", Nine, 26.5m);

        var refused = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<RecordReadings>().HandleAsync(
            [new("Z80", Hours(-1), 20m), new("NO", Nine, 20m), new("Z80", Hours(2), 20m), new("Z80", Nine, 61m), new("Z80", Nine, 27m)], nursery.Staff));

        Assert.Equal(
            ["readings[1].zone", "readings[2].at", "readings[3].temperatureC", "readings[4].temperatureC"], refused.Errors.Select(error => error.Field));
        Assert.Contains("26.5", refused.Errors[^1].Allowed, StringComparison.Ordinal);
        Assert.Single((await ZoneAsync(nursery, "Z80")).Course);
    }

    [Fact]
    public async Task Record_TwoAtOnce_StoreEachReadingOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var readings = Enumerable.Range(0, 50).Select(number => new ReportedReading("Z80", Hours(-number), 20m)).ToList();

        var all = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => nursery.Get<RecordReadings>().HandleAsync(readings, nursery.Staff)));

        Assert.Equal(50, all.Sum(done => done.Created));
    }

    [Fact]
    public async Task Import_DryRunThenFile_StoresOnceAndExportReadsBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = "zone,at,temperature_c\nZ80,2026-03-02 08:00,26.1\nZ80,2026-03-02T13:00:00Z,25.9\n";

        Assert.Equal((true, 2, 2), Of(await ImportAsync(nursery, file, true)));
        Assert.Empty((await ZoneAsync(nursery, "Z80")).Course);
        Assert.Equal((false, 2, 2), Of(await ImportAsync(nursery, file, false)));

        // 8:00 in Chicago is 14:00 UTC.
        var exported = await ExportAsync(nursery);
        Assert.Equal("zone,at,temperature_c\r\nZ80,2026-03-02T13:00:00Z,25.9\r\nZ80,2026-03-02T14:00:00Z,26.1\r\n", exported);
        Assert.Equal((false, 2, 0), Of(await ImportAsync(nursery, exported, false)));
    }

    [Fact]
    public async Task Import_FaultyLines_AreToldByLine()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var result = await ImportAsync(
            nursery, "zone,at,temperature_c\nZ80,2026-03-02 08:00,26\nZ99,2026-03-02 08:00,26\nZ80,yesterday,26\nZ80,2026-03-02 08:00,27\nZ80,2026-03-02 07:00,hot\n", false);

        Assert.Equal(
            [(3, "zone"), (4, "at"), (5, "temperature_c"), (6, "temperature_c")], result.Errors.Select(error => (error.Line!.Value, error.Field)));
        Assert.Empty((await ZoneAsync(nursery, "Z80")).Course);
    }

    /// <summary>Pepper germinates at 15 to 35 °C.</summary>
    [Fact]
    public async Task Alarms_ColdReading_RaiseAndEndOneAlarm()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await OnHeatAsync(nursery);

        await RecordAsync(nursery, "Z80", Hours(-3), 12m);
        await RecordAsync(nursery, "Z80", Hours(-2), 10m);
        await RecordAsync(nursery, "Z80", Hours(-1), 11m);
        var alarm = Assert.Single((await ViewAsync(nursery)).Alarms);
        Assert.Equal((ZoneAlarmKind.TooCold, 10m, "Pepper", null), (alarm.Kind, alarm.WorstC, alarm.CropName, alarm.Until));

        await RecordAsync(nursery, "Z80", Nine, 26m);
        await nursery.Get<WatchZones>().HandleAsync();
        Assert.Equal(Instant.FromDateTimeOffset(TestNursery.Start), Assert.Single((await ViewAsync(nursery)).Alarms).Until);
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).ZonesOutOfBand);
    }

    [Fact]
    public async Task Alarms_ProbeFallsSilent_RaiseOnlyWhereTraysLie()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await OnHeatAsync(nursery);
        await RecordAsync(nursery, "Z80", Nine, 26m);
        await RecordAsync(nursery, "Z60", Nine, 15m);
        nursery.Clock.Advance(TimeSpan.FromHours(25));

        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => nursery.Get<WatchZones>().HandleAsync()));

        var alarm = Assert.Single((await ViewAsync(nursery)).Alarms);
        Assert.Equal(("Z80", ZoneAlarmKind.NoReading), (alarm.ZoneCode, alarm.Kind));
        var unread = Assert.Single((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).ZonesUnread);
        Assert.Equal(("Z80", 25), (unread.ZoneCode, unread.Hours));

        await RecordAsync(nursery, "Z80", Hours(25), 26m);
        Assert.NotNull(Assert.Single((await ViewAsync(nursery)).Alarms).Until);
    }

    [Fact]
    public async Task Show_OtherSite_SeesNothingOfIt()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        await RecordAsync(ours, "Z80", Nine, 26m);

        Assert.All((await ViewAsync(theirs)).Houses.SelectMany(house => house.Zones), zone => Assert.Null(zone.ReadsC));
        Assert.Equal("zone,at,temperature_c\r\n", await ExportAsync(theirs));
    }

    private static OffsetDateTime Hours(int later) => Nine.PlusHours(later);

    private static (bool, int, int) Of(ReadingsImport result) => (result.DryRun, result.Rows, result.Created);

    private static async Task OnHeatAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
    }

    private static Task<RecordedReadings> RecordAsync(TestNursery nursery, string zone, OffsetDateTime at, decimal celsius) =>
        nursery.Get<RecordReadings>().HandleAsync([new ReportedReading(zone, at, celsius)], nursery.Staff);

    private static Task<ReadingsImport> ImportAsync(TestNursery nursery, string file, bool dryRun) =>
        nursery.Get<ImportReadings>().HandleAsync(Encoding.UTF8.GetBytes(file), dryRun, nursery.Staff);

    private static async Task<string> ExportAsync(TestNursery nursery)
    {
        using var stream = new MemoryStream();
        await (await nursery.Get<ExportReadings>().HandleAsync(nursery.Staff))(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static Task<HeatAndLightView> ViewAsync(TestNursery nursery) => nursery.Get<ShowHeatAndLight>().HandleAsync(nursery.Staff);

    private static async Task<ZoneClimate> ZoneAsync(TestNursery nursery, string code) =>
        (await ViewAsync(nursery)).Houses.SelectMany(house => house.Zones).Single(zone => zone.Code == code);

    private static async Task<decimal?> ReadsAsync(TestNursery nursery, string code) => (await ZoneAsync(nursery, code)).ReadsC;

    private static async Task<int> VersionAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        return await rows.HeatZones.Where(zone => zone.Id == nursery.At.Zones[0].Id).Select(zone => zone.Version).SingleAsync();
    }
}
