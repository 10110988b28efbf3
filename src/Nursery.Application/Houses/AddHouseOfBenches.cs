using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy;
using Nursery.Application.Crops;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Houses;

/// <summary>A house with equal benches on both sides of an aisle; the first ones heated, each with one zone over all of it.</summary>
/// <param name="Code">Of the house; benches are named after it: H1-A, H1-B …</param>
/// <param name="Name">Of the house.</param>
/// <param name="LengthCm">Of the house.</param>
/// <param name="WidthCm">Of the house.</param>
/// <param name="Benches">How many, 1–26.</param>
/// <param name="BenchLengthCm">Along the house.</param>
/// <param name="BenchWidthCm">Across it.</param>
/// <param name="AisleCm">Kept free between benches, and between benches and walls.</param>
/// <param name="Heated">How many of them are germination benches.</param>
/// <param name="SetpointC">Of their zones, °C.</param>
/// <param name="Warm">How many of the others are run warm; the rest is run cool.</param>
public sealed record HouseOfBenchesRequest(
    string Code, string Name, int LengthCm, int WidthCm, int Benches, int BenchLengthCm, int BenchWidthCm, int AisleCm,
    int Heated, decimal SetpointC, int Warm);

/// <summary>A first house in one step.</summary>
public sealed class AddHouseOfBenches(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    private const int MostBenches = 26;

    /// <exception cref="InvalidFields">The benches do not fit, or a code is taken; nothing is stored.</exception>
    public Task HandleAsync(HouseOfBenchesRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        Check(request);
        return databases.RunAsync(database => AddAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<int> AddAsync(
        NurseryDbContext database, HouseOfBenchesRequest request, Actor actor, CancellationToken cancellation)
    {
        var benches = lists.Find("benches");
        var rows = await SetupLists.BeginAsync(database, benches, actor, starting, time, cancellation);
        var order = rows.Houses.Values.Select(house => house.RoundOrder).DefaultIfEmpty().Max() + 1;
        Store(database, "houses", [HouseFields(request, order)], rows, actor);
        Store(database, "benches", [.. Enumerable.Range(0, request.Benches).Select(number => BenchFields(request, number))], rows, actor);
        Store(database, "heat-zones", [.. Enumerable.Range(0, request.Heated).Select(number => ZoneFields(request, number))], rows, actor);
        return await database.SaveChangesAsync(cancellation);
    }

    private void Store(
        NurseryDbContext database, string name, List<Dictionary<string, string>> fields, NurseryRows rows, Actor actor)
    {
        var list = lists.Find(name);
        var known = list.Rows(rows).Select(row => row.Key).ToHashSet(StringComparer.Ordinal);
        var errors = new List<FieldError>();
        var lines = fields.ConvertAll(line => new CsvRow(name + ".csv", null, list.Info.Whole(line), null, errors));
        foreach (var line in lines.Where(line => known.Contains(line["code"])))
        {
            line.Fail("code", $"a code no other {list.Info.One} has");
        }

        var staged = list.Stage(lines, rows, null);
        if (errors.Count > 0)
        {
            throw new InvalidFields(errors);
        }

        SetupLists.Store(database, list, staged, rows, actor);
    }

    private static void Check(HouseOfBenchesRequest request)
    {
        var checks = new FieldChecks()
            .Text("code", request.Code, 18)
            .Text("name", request.Name, 100)
            .Range("benches", request.Benches, 1, MostBenches)
            .Range("benchLengthCm", request.BenchLengthCm, 1, HouseList.MostCm)
            .Range("benchWidthCm", request.BenchWidthCm, 1, HouseList.MostCm)
            .Range("aisleCm", request.AisleCm, 0, HouseList.MostCm)
            .Range("heated", request.Heated, 0, request.Benches)
            .Range("warm", request.Warm, 0, Math.Max(0, request.Benches - request.Heated));
        checks.Done();
        var (along, across) = Fit(request);
        if (along * across < request.Benches)
        {
            throw new InvalidFields(
                "benches", Cell.Of(request.Benches),
                string.Create(CultureInfo.InvariantCulture, $"at most {along * across}: {along} along the house and {across} across it, with aisles of {request.AisleCm} cm"));
        }

        if (TraySpaces.Standard.On(request.BenchLengthCm, request.BenchWidthCm).Spaces == 0)
        {
            throw new InvalidFields("benchWidthCm", Cell.Of(request.BenchWidthCm), "a bench at least one 1020 tray lies on");
        }
    }

    private static (int Along, int Across) Fit(HouseOfBenchesRequest request) => (
        Math.Max(0, (request.LengthCm - request.AisleCm) / (request.BenchLengthCm + request.AisleCm)),
        Math.Max(0, (request.WidthCm - request.AisleCm) / (request.BenchWidthCm + request.AisleCm)));

    private static string BenchCode(HouseOfBenchesRequest request, int number) => $"{request.Code.Trim()}-{(char)('A' + number)}";

    private static Dictionary<string, string> HouseFields(HouseOfBenchesRequest request, int order) => new()
    {
        ["code"] = request.Code.Trim(),
        ["name"] = request.Name.Trim(),
        ["length_cm"] = Cell.Of(request.LengthCm),
        ["width_cm"] = Cell.Of(request.WidthCm),
        ["round_order"] = Cell.Of(order),
    };

    private static Dictionary<string, string> BenchFields(HouseOfBenchesRequest request, int number)
    {
        var (along, _) = Fit(request);
        var heated = number < request.Heated;
        var room = (TraySpaces.Standard with { OneWay = heated }).On(request.BenchLengthCm, request.BenchWidthCm);
        return new Dictionary<string, string>
        {
            ["house"] = request.Code.Trim(),
            ["code"] = BenchCode(request, number),
            ["name"] = $"Bench {BenchCode(request, number)}",
            ["kind"] = heated ? "germination" : "growing",
            ["band"] = heated ? "" : number < request.Heated + request.Warm ? "warm" : "cool",
            ["length_cm"] = Cell.Of(request.BenchLengthCm),
            ["width_cm"] = Cell.Of(request.BenchWidthCm),
            ["x_cm"] = Cell.Of(request.AisleCm + (number % along * (request.BenchLengthCm + request.AisleCm))),
            ["y_cm"] = Cell.Of(request.AisleCm + (number / along * (request.BenchWidthCm + request.AisleCm))),
            ["spaces"] = Cell.Of(room.Spaces),
            ["rows"] = Cell.Of(Math.Max(1, room.Rows)),
            ["round_order"] = Cell.Of(number + 1),
        };
    }

    private static Dictionary<string, string> ZoneFields(HouseOfBenchesRequest request, int number)
    {
        var room = (TraySpaces.Standard with { OneWay = true }).On(request.BenchLengthCm, request.BenchWidthCm);
        return new Dictionary<string, string>
        {
            ["bench"] = BenchCode(request, number),
            ["code"] = $"Z-{BenchCode(request, number)}",
            ["first_space"] = "1",
            ["spaces"] = Cell.Of(room.Spaces),
            ["setpoint_c"] = Cell.Degrees(request.SetpointC),
            ["reads_c"] = "",
        };
    }
}
