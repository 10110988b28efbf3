using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Computed;
using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Computed;

public sealed class SeedChanceTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly Temperature Mild = Temperature.FromFahrenheit(68);

    [Fact]
    public async Task Of_LabelAlone_IsLessFivePointsOfTheHouse()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var chance = (await AskAsync(nursery, nursery.Tomato, nursery.TomatoLot, Mild))!;

        // 0.90 − 0.05; reference 02a prints 98 % normal tomato seedlings at 68 °F, the most of any temperature.
        Assert.Equal(0.85, chance.Prior.Mean, 1e-9);
        Assert.Equal(35, chance.Prior.A + chance.Prior.B, 1e-9);
        Assert.Equal(["germination on the label", "own record", "house", "normal seedlings at the temperature", "a + b, how little batches differ"], chance.How.Inputs.Select(input => input.Name));
        Assert.Equal(("90", $"label of lot {nursery.TomatoLot.Code}, tested 2025-11-01"), (chance.How.Inputs[0].Value, chance.How.Inputs[0].From));
        Assert.Equal(("-5.0", "from memory"), (chance.How.Inputs[2].Value, chance.How.Inputs[2].From));
        Assert.EndsWith("= 85 %", chance.How.Formula, StringComparison.Ordinal);
    }

    /// <summary>Reference 02a: lettuce gives 99 % normal seedlings at 68 °F and 12 % at 86 °F.</summary>
    [Fact]
    public async Task Of_LettuceInHeat_LosesWhatTheTablePrints()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var mild = (await AskAsync(nursery, nursery.Lettuce, nursery.LettuceLot, Mild))!;
        var hot = (await AskAsync(nursery, nursery.Lettuce, nursery.LettuceLot, Temperature.FromFahrenheit(86)))!;

        Assert.Equal(12d / 99, hot.Prior.Mean / mild.Prior.Mean, 1e-9);
        Assert.Null(await AskAsync(nursery, nursery.Lettuce, nursery.LettuceLot, Temperature.FromFahrenheit(110)));
    }

    [Fact]
    public async Task Of_NoLot_TakesACautiousGermination()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var chance = (await AskAsync(nursery, nursery.Tomato, null, Mild))!;

        Assert.Equal(0.75, chance.Prior.Mean, 1e-9);
        Assert.Equal("no lot yet, from memory", chance.How.Inputs[0].From);
    }

    [Fact]
    public async Task Of_OldLabel_AgesUnlessPrimed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var old = nursery.NewLot(nursery.Lettuce, $"OLD-{nursery.Lettuce.Code}", 0.9m, 1000);
        old.TestedOn = nursery.Today.PlusDays(-1365);
        var primed = nursery.NewLot(nursery.Lettuce, $"PR-{nursery.Lettuce.Code}", 0.9m, 1000);
        (primed.TestedOn, primed.Form) = (old.TestedOn, SeedForm.Primed);

        var aged = (await AskAsync(nursery, nursery.Lettuce, old, Mild))!;

        // log₁₀ σ = 7.938 − 5.25 log₁₀ 6 − 0.0329 × 15 − 0.000478 × 225 = 3.2516: 1785 days; 1.2816 − 1000/1785 = 0.7213: 76.5 %.
        Assert.Equal(0.765, aged.Germination.Value, 0.001);
        Assert.Contains(aged.How.Inputs, input => input.Name == "left after storage" && input.Value.StartsWith("76", StringComparison.Ordinal));
        Assert.Equal(0.9, (await AskAsync(nursery, nursery.Lettuce, primed, Mild))!.Germination.Value, 1e-9);
    }

    [Fact]
    public async Task Of_CountedBatches_LearnsLotAndHouse()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        foreach (var space in new[] { 1, 2, 3 })
        {
            await CountAsync(nursery, space, seedlings: 43);
        }

        var here = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Temperature.FromFahrenheit(77), "H1"))!;
        var elsewhere = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Temperature.FromFahrenheit(77), "H2"))!;

        // 43 of 72 each against 80 %: d = −0.2028, error of three batches √(0.5972 × 0.4028 ÷ (3 × 72 ÷ (1 + 71/36))) = 0.05751.
        var error = Math.Sqrt(43d / 72 * 29 / 72 / (3 * 72 / (1 + (71d / 36))));
        var ofHouse = Shrunk(-0.05, (43d / 72) - 0.80, Math.Sqrt((error * error) + 0.0025));
        var ofLot = Shrunk(0, (43d / 72) - (0.80 + ofHouse), error);
        Assert.Equal(100 * ofHouse, here.HousePoints, 1e-6);
        Assert.Equal(0.80 + ofLot, here.Germination.Value, 1e-6);
        Assert.Equal(-5, elsewhere.HousePoints, 1e-9);
        Assert.Contains(here.How.Inputs, input => input.From == "3 counted batches of Pepper in house H1");
        Assert.Contains(here.How.Inputs, input => input.From == $"3 counted batches of lot {nursery.PepperLot.Code}");
        Assert.InRange(here.Prior.Mean, 0.59, 0.70);
    }

    [Fact]
    public async Task Of_CountWhileStillEmerging_TeachesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await CountAsync(nursery, 1, seedlings: 10, afterDays: 9);

        var chance = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Temperature.FromFahrenheit(77), "H1"))!;

        Assert.Equal((0.80, -5d), (Math.Round(chance.Germination.Value, 9), Math.Round(chance.HousePoints, 9)));
    }

    [Fact]
    public async Task Of_AnotherLotOfTheVariety_SpeaksSofter()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await CountAsync(nursery, 1, seedlings: 36);
        var fresh = nursery.NewLot(nursery.Pepper, $"NEW-{nursery.Pepper.Code}", 0.8m, 1000);

        var own = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Temperature.FromFahrenheit(77)))!;
        var other = (await AskAsync(nursery, nursery.Pepper, fresh, Temperature.FromFahrenheit(77)))!;

        Assert.True(own.Germination.Value < other.Germination.Value && other.Germination.Value < 0.80);
        Assert.Contains(other.How.Inputs, input => input.From == "1 counted batch of other lots of the variety");
    }

    /// <summary>Thousands are asked: everything is loaded before, the answers take milliseconds.</summary>
    [Fact]
    public async Task LoadAsync_ForManyBatches_AsksTheDatabaseAFewTimes()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var context = await nursery.DatabaseAsync();
        await CountedHistory.AddAsync(nursery, context);
        var crop = await context.Crops.SingleAsync(row => row.Id == nursery.Pepper.CropId);
        var chances = await SeedChances.LoadAsync(context, nursery.At.Site, nursery.Today, default);
        await context.DisposeAsync();

        var question = new SeedQuestion(crop, nursery.Pepper, nursery.PepperLot, null, Mild, nursery.Today);
        var first = chances.Of(question)!;
        for (var batch = 0; batch < 5000; batch++)
        {
            Assert.Equal(first.Prior, chances.Of(question)!.Prior);
        }

        Assert.Contains(first.How.Inputs, input => input.From.Contains("100 counted batches", StringComparison.Ordinal));
    }

    private static double Shrunk(double guess, double found, double error) =>
        ((guess / 0.0025) + (found / (error * error))) / ((1 / 0.0025) + (1 / (error * error)));

    private static async Task<SeedChance?> AskAsync(TestNursery nursery, Variety variety, SeedLot? lot, Temperature media, string? house = null)
    {
        await using var context = await nursery.DatabaseAsync();
        var crop = await context.Crops.SingleAsync(row => row.Id == variety.CropId);
        var chances = await SeedChances.LoadAsync(context, nursery.At.Site, nursery.Today, default);
        return chances.Of(new SeedQuestion(crop, variety, lot, house, media, nursery.Today));
    }

    private static async Task CountAsync(TestNursery nursery, int space, int seedlings, int afterDays = 20)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 1);
        await nursery.ReserveAsync(batch, "G1", space, nursery.Today, nursery.Today.PlusDays(60));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(afterDays));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
    }
}
