using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Application.Plans;
using Nursery.Data;
using Nursery.Domain.Runs;
using Nursery.Planning;
using Nursery.Planning.Problems;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Plans;

/// <summary>The real program, and scripts in its place that do what it should not.</summary>
public sealed class BoundsProgramTests(TestDatabase database) : IClassFixture<TestDatabase>, IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(1);
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("bounds-program");

    private string PidFile => Path.Combine(_folder.FullName, "pid");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Bound_RealProgram_IsNeverAboveThePlan()
    {
        var program = new BoundsProgram(NullLogger<BoundsProgram>.Instance, RealProgram());
        for (var due = 40; due <= 48; due += 4)
        {
            var problem = Season(due);
            var plan = Planner.Plan(problem, new Effort(2000)).Plan;

            // Small seasons by whole zones, large ones not.
            var whole = await program.BoundAsync(PlanningJson.Write(problem), problem.Batches.Count, TimeSpan.FromSeconds(60));
            var parts = await program.BoundAsync(PlanningJson.Write(problem), 1000, TimeSpan.FromSeconds(60));

            Assert.InRange(whole!.Value, 1, plan.Score.Cost);
            Assert.InRange(parts!.Value, 1, whole.Value);

            // Far below every plan it would say nothing.
            Assert.InRange((double)plan.Score.Cost / whole.Value, 1, 1.3);
        }
    }

    /// <summary>Batches that stand elsewhere today cost more to move, but that is no part of a plan's cost, and so not of the bound.</summary>
    [Fact]
    public async Task Bound_PlanOfToday_DoesNotRaiseIt()
    {
        var program = new BoundsProgram(NullLogger<BoundsProgram>.Instance, RealProgram());
        var problem = Season(44);
        var today = problem with { Batches = [.. problem.Batches.Select(batch => batch with { Now = new PlaceNow(problem.Start.AddDays(1), "a", "warm") })] };

        Assert.Equal(
            await program.BoundAsync(PlanningJson.Write(problem), 2, TimeSpan.FromSeconds(60)),
            await program.BoundAsync(PlanningJson.Write(today), 2, TimeSpan.FromSeconds(60)));
    }

    [Theory]
    [InlineData("kill -SEGV $$")]
    [InlineData("echo '{\"bound\":500}'; exit 134")]
    [InlineData("echo 'terminate called after throwing'; exit 1")]
    [InlineData("echo rubbish")]
    [InlineData("echo '[1,2'")]
    [InlineData("echo '[500]'")]
    [InlineData("echo '{\"bound\":\"500\"}'")]
    [InlineData("echo '{\"bound\":-500}'")]
    [InlineData("echo '{\"bound\":1e400}'")]
    [InlineData("echo '{\"bound\":null}'")]
    [InlineData("head -c 30000000 /dev/zero")]
    [InlineData("exit 0")]
    public async Task Bound_ProgramGoneWrong_IsNone(string script) =>
        Assert.Null(await Standin(script).BoundAsync("{}", 1, Soon));

    [Fact]
    public async Task Bound_ChattyProgram_IsTheLastLine() =>
        Assert.Equal(500, await Standin("echo solving; echo '{\"bound\":500}'").BoundAsync("{}", 1, Soon));

    [Fact]
    public async Task Bound_ProgramThatIsNotDone_IsWhatItFoundSoFar()
    {
        using var stop = new CancellationTokenSource();
        var asked = Standin($"echo '{{\"bound\":400}}'; echo '{{\"bound\":500}}'; printf '{{\"bound\":600}}'; echo $$ >{PidFile}; sleep 600")
            .BoundAsync("{}", 1, TimeSpan.FromSeconds(600), stop.Token);
        while (!File.Exists(PidFile))
        {
            await Task.Delay(20);
        }

        await Task.Delay(500);
        await stop.CancelAsync();

        Assert.Equal(500, await asked.WaitAsync(TimeSpan.FromSeconds(30)));
    }

    [Fact]
    public async Task Bound_NoProgram_IsNone()
    {
        Assert.Empty(BoundsProgram.Beside(_folder.FullName));
        Assert.Null(await new BoundsProgram(NullLogger<BoundsProgram>.Instance, []).BoundAsync("{}", 1, Soon));
        Assert.Null(await new BoundsProgram(NullLogger<BoundsProgram>.Instance, [Path.Combine(_folder.FullName, "gone")]).BoundAsync("{}", 1, Soon));
    }

    [Fact]
    public async Task Bound_ProgramWithoutEnd_IsEnded()
    {
        var watch = Stopwatch.StartNew();

        Assert.Null(await Standin($"echo $$ >{PidFile}; sleep 600 & wait", slack: TimeSpan.FromSeconds(2)).BoundAsync("{}", 1, Soon));

        Assert.InRange(watch.Elapsed.TotalSeconds, 2, 60);
        await GoneAsync();
    }

    [Fact]
    public async Task Bound_Cancelled_EndsTheProgramAndItsChildren()
    {
        using var stop = new CancellationTokenSource();
        var asked = Standin($"sleep 600 & echo $! >{PidFile}; wait").BoundAsync("{}", 1, TimeSpan.FromSeconds(600), stop.Token);
        while (!File.Exists(PidFile) || (await File.ReadAllTextAsync(PidFile)).Length == 0)
        {
            await Task.Delay(20);
        }

        await stop.CancelAsync();

        Assert.Null(await asked.WaitAsync(TimeSpan.FromSeconds(30)));
        await GoneAsync();
    }

    [Fact]
    public async Task RealProgram_WhoeverStartedItIsGone_EndsItself()
    {
        var file = Path.Combine(_folder.FullName, "problem.json");
        var many = Season(44);
        await File.WriteAllTextAsync(file, PlanningJson.Write(many with
        {
            Batches = [.. Enumerable.Range(1, 150).Select(number => many.Batches[number % 2] with { Id = $"b{number}", Due = many.Start.AddDays(40 + (number % 40)) })],
        }));
        string[] command = [.. RealProgram(), file, "mip", "600", "--until-input-ends"];
        using var process = Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;

        process.StandardInput.Close();

        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(120));
        Assert.Equal(3, process.ExitCode);
    }

    [Theory]
    [InlineData("echo '{\"bound\":7}'", 7L)]
    [InlineData("echo '{\"bound\":7}'; sleep 600", 7L)]
    [InlineData("echo '{\"bound\":99999999}'", null)]
    [InlineData("kill -ABRT $$", null)]
    [InlineData("sleep 600", null)]
    public async Task Run_WhateverTheProgramDoes_ThePlanIsThere(string script, long? bound)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 8);
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Seconds: 3), nursery.HeadGrower);

        var work = new RunPlan(
            nursery.Get<IDbContextFactory<NurseryDbContext>>(), Standin(script), NullLogger<RunPlan>.Instance, nursery.Clock).HandleAsync(run.Id);
        await work.WaitAsync(TimeSpan.FromSeconds(60));

        var seen = await nursery.Get<ShowPlan>().HandleAsync(run.Id, nursery.Manager);
        Assert.Equal((RunState.Done, 1, bound), (seen.State, seen.Plan!.Batches.Count, seen.Bound));
    }

    [Fact]
    public void Words_Bound_SayHowMuchCheaperItCouldBe()
    {
        Assert.Equal("No plan of this season can cost less than 295.10; this one costs 310.77, at most 6 % more.", BoundWords.Of(31077, 29510));
        Assert.Equal("No plan of this season can cost less than 1,000.00; this one costs 1,050.00, at most 5 % more.", BoundWords.Of(105000, 100000));
        Assert.Equal("No plan of this season can cost less than 12.00; this one costs 12.00, so none is cheaper.", BoundWords.Of(1200, 1200));
        Assert.Equal("6", BoundWords.How(31077, 29510).Inputs[^1].Value);
    }

    private static BoundsProgram Standin(string script, TimeSpan? slack = null) =>
        new(NullLogger<BoundsProgram>.Instance, ["/bin/sh", "-c", script], slack);

    private async Task GoneAsync()
    {
        var process = $"/proc/{(await File.ReadAllTextAsync(PidFile)).Trim()}";
        for (var tries = 0; Directory.Exists(process) && tries < 250; tries++)
        {
            await Task.Delay(20);
        }

        Assert.False(Directory.Exists(process) && !(await File.ReadAllTextAsync($"{process}/stat")).Contains(") Z ", StringComparison.Ordinal));
    }

    /// <summary>Two batches and room for both.</summary>
    private static Problem Season(int due)
    {
        var start = new DateOnly(2026, 1, 5);
        return new Problem(
            start, 112, [new("h")],
            [new("heat", "h", BenchUse.Heat, 20, 60, 100), new("warm", "h", BenchUse.Warm, 20, 60, 100)],
            [new("a", "heat", 1, 10, [65, 70, 75]), new("b", "heat", 11, 10, [65, 70, 75])], 40,
            [new Crop("basil", 65, 70, 75, [new(65, 0.12), new(70, 0.2), new(75, 0.25)], 14)],
            [new Batch("one", "basil", 8, start.AddDays(due)), new Batch("two", "basil", 8, start.AddDays(due + 12))]);
    }

    /// <summary>Where the build beside this one left it.</summary>
    private static string[] RealProgram()
    {
        var built = new DirectoryInfo(AppContext.BaseDirectory);
        var root = built.Parent!.Parent!.Parent!.Parent!.Parent!.FullName;
        var program = Path.Combine(root, "src", "Nursery.Bounds", "bin", built.Parent.Name, built.Name, "Nursery.Bounds.dll");
        Assert.True(File.Exists(program), string.Create(CultureInfo.InvariantCulture, $"{program} is not built"));
        return ["dotnet", program];
    }
}
