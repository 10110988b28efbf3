using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace Nursery.Web.Tests.Hosting;

/// <summary>The program itself, started as people start it: no database is there.</summary>
public sealed class PlanVerbTests : IDisposable
{
    private const string Problem =
        """
        {"start":"2026-01-05","days":56,"hardeningSpaces":20,"houses":[{"id":"h"}],
         "benches":[{"id":"heat","house":"h","use":"Heat","spaces":10,"widthIn":60,"lengthIn":60},
                    {"id":"warm","house":"h","use":"Warm","spaces":10,"widthIn":60,"lengthIn":60},
                    {"id":"none","house":"h","use":"Warm","spaces":0,"widthIn":60,"lengthIn":60}],
         "zones":[{"id":"a","bench":"heat","firstSpace":1,"spaces":10,"setpointsF":[70,75]}],
         "crops":[{"id":"basil","minF":70,"bestF":75,"maxF":80,"table":[{"setpointF":75,"progressPerDay":0.2}],"warmDays":14}],
         "batches":[{"id":"one","crop":"basil","trays":4,"due":"2026-02-20"}]}
        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("plan-verb");

    private string In => Path.Combine(_folder.FullName, "problem.json");

    private string Out => Path.Combine(_folder.FullName, "plan.json");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Plan_Problem_IsWrittenWithARemarkAndIsTheSameTwice()
    {
        await File.WriteAllTextAsync(In, Problem);

        var (code, said, _) = await RunAsync("--iterations", "500", "--seed", "3");
        var first = await File.ReadAllTextAsync(Out);
        await RunAsync("--iterations", "500", "--seed", "3");

        Assert.Equal(0, code);
        Assert.Contains("benches[none].spaces: 0 is not allowed; 1 to 5000 is", said, StringComparison.Ordinal);
        Assert.Contains("1 batches have a place, 0 have none", said, StringComparison.Ordinal);
        Assert.Equal(first, await File.ReadAllTextAsync(Out));
        var placed = JsonDocument.Parse(first).RootElement.GetProperty("batches")[0];
        Assert.Equal("2026-02-20", placed.GetProperty("readyOn").GetString());
        Assert.Equal("2026-01-25", placed.GetProperty("sowOn").GetString());
    }

    /// <summary>As it is built: the program that bounds the cost lies beside it.</summary>
    [Fact]
    public async Task Plan_Bound_IsSaidBesideTheCost()
    {
        await File.WriteAllTextAsync(In, Problem);
        var built = new DirectoryInfo(AppContext.BaseDirectory);
        var root = built.Parent!.Parent!.Parent!.Parent!.Parent!.FullName;
        var program = Path.Combine(root, "src", "Nursery.Web", "bin", built.Parent.Name, built.Name, "Nursery.Web.dll");

        var (code, said, _) = await RunFromAsync(program, "--iterations", "500", "--bound");

        Assert.Equal(0, code);

        // The zone at 75 °F: 10 spaces × 7 days × 2 tens of °F, 1.40 a week. To change it costs 10.00, so it stays so for all 8 weeks.
        Assert.Contains("No plan of this season can cost less than 11.20; this one costs 11.20, so none is cheaper.", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_BoundWithoutItsProgram_SaysThatThereIsNone()
    {
        await File.WriteAllTextAsync(In, Problem);

        var (code, said, _) = await RunAsync("--iterations", "500", "--bound");

        Assert.Equal(0, code);
        Assert.Contains("How cheap a plan could be at best was not found.", said, StringComparison.Ordinal);
        Assert.True(File.Exists(Out));
    }

    [Theory]
    [InlineData("{\"start\":7}", "start (line 1): 7 is not allowed; a date like \"2026-03-01\" is.", "--iterations", "5")]
    [InlineData("rows", "The file (line 1) is not JSON; one JSON object is allowed.", "--iterations", "5")]
    [InlineData(Problem, "seconds is '0'; allowed: above 0 to 86400", "--seconds", "0")]
    [InlineData(Problem, "iterations is '-1'; allowed: 0 to 1000000000000", "--iterations", "-1")]
    [InlineData(Problem, "Nursery.Web plan --in problem.json --out plan.json", "--iterations", "many")]
    public async Task Plan_WrongInput_IsRefusedAndNothingWritten(string json, string sentence, string name, string value)
    {
        await File.WriteAllTextAsync(In, json);

        var (code, _, refused) = await RunAsync(name, value);

        Assert.Equal(2, code);
        Assert.Contains(sentence, refused, StringComparison.Ordinal);
        Assert.False(File.Exists(Out));
    }

    [Fact]
    public async Task Plan_NoSuchFile_IsRefused()
    {
        var (code, _, refused) = await RunAsync("--iterations", "5");

        Assert.Equal(2, code);
        Assert.Contains("problem.json", refused, StringComparison.Ordinal);
    }

    private Task<(int Code, string Said, string Refused)> RunAsync(params string[] args) =>
        RunFromAsync(Path.Combine(AppContext.BaseDirectory, "Nursery.Web.dll"), args);

    private async Task<(int Code, string Said, string Refused)> RunFromAsync(string program, params string[] args)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var arg in new[] { program, "plan", "--in", In, "--out", Out }.Concat(args))
        {
            start.ArgumentList.Add(arg);
        }

        using var process = Process.Start(start)!;
        var refused = process.StandardError.ReadToEndAsync();
        var said = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, said, await refused);
    }
}
