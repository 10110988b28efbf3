using Nursery.Planning.Tests.Instances;
using Xunit;

namespace Nursery.Planning.Tests.Files;

public sealed class PlanningJsonTests
{
    private static readonly string Json = PlanningJson.Write(SmallNursery.Make(1));

    [Fact]
    public void Problem_WrittenAndRead_IsTheSame()
    {
        Assert.Equal(Json, PlanningJson.Write(PlanningJson.ReadProblem(Json)));
    }

    [Fact]
    public void Plan_WrittenAndRead_IsTheSame()
    {
        var json = PlanningJson.Write(Planner.Plan(SmallNursery.Make(1), new Effort(500)).Plan);

        Assert.Equal(json, PlanningJson.Write(PlanningJson.ReadPlan(json)));
    }

    [Theory]
    [InlineData("\"days\":42", "\"days\":\"six\"", "days (line 1): \"six\" is not allowed; a whole number, -2147483648 to 2147483647, is.")]
    [InlineData("\"start\":\"2026-01-05\"", "\"start\":\"yesterday\"", "start (line 1): \"yesterday\" is not allowed; a date like \"2026-03-01\" is.")]
    [InlineData("\"use\":\"Warm\"", "\"use\":\"Tepid\"", "benches[1].use (line 1): \"Tepid\" is not allowed; one of Heat, Warm, Cool, Hardening is.")]
    [InlineData("\"hardeningSpaces\":", "\"hardeningSpace\":", "hardeningSpace (line 1): there is no such field; allowed are start, days,", true)]
    [InlineData("\"trays\":", "\"tray\":", "batches[0]", true)]
    [InlineData("\"days\":42,", "", "days is missing; required there.", true)]
    [InlineData("\"days\":42", "\"days\":null", "days (line 1): null is not allowed;", true)]
    [InlineData("{\"start\"", "[{\"start\"", "is not JSON; one JSON object is allowed.", true)]
    public void Problem_Unreadable_SaysWhereWhatAndWhatIsAllowed(string right, string wrong, string sentence, bool part = false)
    {
        var at = Json.IndexOf(right, StringComparison.Ordinal);
        var json = Json[..at] + wrong + Json[(at + right.Length)..];

        var refused = Assert.Throws<ProblemUnreadable>(() => PlanningJson.ReadProblem(json));

        if (part)
        {
            Assert.Contains(sentence, refused.Message, StringComparison.Ordinal);
        }
        else
        {
            Assert.Equal(sentence, refused.Message);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("7")]
    public void Problem_NotAnObject_IsRefused(string json) =>
        Assert.NotEmpty(Assert.Throws<ProblemUnreadable>(() => PlanningJson.ReadProblem(json)).Message);
}
