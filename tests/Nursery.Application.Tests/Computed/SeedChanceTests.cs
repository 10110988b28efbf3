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
    private static readonly Temperature Warm = Temperature.FromFahrenheit(77);

    [Fact]
    public async Task Of_LabelAlone_IsLessFivePointsOfTheHouse()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var chance = (await AskAsync(nursery, nursery.Tomato, nursery.TomatoLot, Mild))!;

        // 0.90 − 0.05; reference 02a prints 98 % normal tomato seedlings at 68 °F, the most of any temperature.
        Assert.Equal(0.85, chance.Prior.Mean, 1e-9);
        Assert.Equal(35, chance.Prior.A + chance.Prior.B, 1e-9);
        Assert.Equal(["germination on the label", "house", "expected by label and house", "own batches of the lot", "normal seedlings at the temperature", "a + b, how little batches differ"], chance.How.Inputs.Select(input => input.Name));
        Assert.Equal(("90", $"label of lot {nursery.TomatoLot.Code}, tested 2025-11-01"), (chance.How.Inputs[0].Value, chance.How.Inputs[0].From));
        Assert.Equal(("-5.0", "from memory"), (chance.How.Inputs[1].Value, chance.How.Inputs[1].From));
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
    public async Task Of_CountedBatches_LearnsTheLot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        foreach (var space in new[] { 1, 2, 3 })
        {
            await CountAsync(nursery, space, seedlings: 43);
        }

        var here = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Warm, "H1"))!;

        // The label's 75 % of 35 seeds, and three batches of 72 worth 72 ÷ (1 + 72/140) = 47.547 each: (26.25 + 85.189) ÷ 177.642.
        Assert.Equal(0.62733, here.Germination.Value - 0.05, 1e-4);
        Assert.Equal(-5, here.HousePoints, 1e-9);
        Assert.Contains(here.How.Inputs, input => (input.Value, input.From) == ("60", $"3 counted batches of lot {nursery.PepperLot.Code}"));
        Assert.InRange(here.Prior.Mean, 0.58, 0.63);
    }

    [Fact]
    public async Task Of_CountedLots_LearnsTheirHouseForOthers()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await CountAsync(nursery, 1, seedlings: 50);
        var fresh = nursery.NewLot(nursery.Pepper, $"NEW-{nursery.Pepper.Code}", 0.8m, 1000);

        var here = (await AskAsync(nursery, nursery.Pepper, fresh, Warm, "H1"))!;
        var elsewhere = (await AskAsync(nursery, nursery.Pepper, fresh, Warm, "H2"))!;

        // One lot 10.56 points under its label of 80, the usual −5 counting as three.
        Assert.Equal(((3 * -5) + (100 * ((50d / 72) - 0.80))) / 4, here.HousePoints, 1e-6);
        Assert.Equal(-5, elsewhere.HousePoints, 1e-9);
        Assert.Contains(here.How.Inputs, input => input.From == "1 counted batch of Pepper in house H1");
        Assert.Contains(here.How.Inputs, input => input is { Name: "own batches of the lot", Value: "none" });
    }

    /// <summary>What a batch's own counts say comes on top of the chance, once.</summary>
    [Fact]
    public async Task Of_TheBatchItself_IsLeftOut()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await CountAsync(nursery, 1, seedlings: 43);

        Assert.Equal(0.80, (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Warm, "H1", batch))!.Germination.Value, 1e-9);
        Assert.True((await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Warm, "H1"))!.Germination.Value < 0.79);
    }

    [Fact]
    public async Task Of_CountWhileStillEmerging_TeachesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await CountAsync(nursery, 1, seedlings: 10, afterDays: 9);

        var chance = (await AskAsync(nursery, nursery.Pepper, nursery.PepperLot, Warm, "H1"))!;

        Assert.Equal((0.80, -5d), (Math.Round(chance.Germination.Value, 9), Math.Round(chance.HousePoints, 9)));
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

        var question = new SeedQuestion(crop, nursery.PepperLot, null, Mild, nursery.Today);
        var first = chances.Of(question)!;
        for (var batch = 0; batch < 5000; batch++)
        {
            Assert.Equal(first.Prior, chances.Of(question)!.Prior);
        }

        Assert.Contains(first.How.Inputs, input => input.From.Contains("60 counted batches", StringComparison.Ordinal));
    }

    private static async Task<SeedChance?> AskAsync(TestNursery nursery, Variety variety, SeedLot? lot, Temperature media, string? house = null, Guid? except = null)
    {
        await using var context = await nursery.DatabaseAsync();
        var crop = await context.Crops.SingleAsync(row => row.Id == variety.CropId);
        var chances = await SeedChances.LoadAsync(context, nursery.At.Site, nursery.Today, default);
        return chances.Of(new SeedQuestion(crop, lot, house, media, nursery.Today) { Except = except });
    }

    private static async Task<Guid> CountAsync(TestNursery nursery, int space, int seedlings, int afterDays = 20)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 1);
        await nursery.ReserveAsync(batch, "G1", space, nursery.Today, nursery.Today.PlusDays(60));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(afterDays));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
        return batch.Id;
    }
}
