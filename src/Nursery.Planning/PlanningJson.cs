using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning;

/// <summary>Problems and plans as JSON, as documented in docs/planning.md.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UseStringEnumConverter = true,
    IgnoreReadOnlyProperties = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    ReadCommentHandling = JsonCommentHandling.Skip,
    AllowTrailingCommas = true,
    RespectRequiredConstructorParameters = true,
    RespectNullableAnnotations = true,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow)]
[JsonSerializable(typeof(Problem))]
[JsonSerializable(typeof(Plan))]
public sealed partial class PlanningJson : JsonSerializerContext
{
    public static string Write(Problem problem) => JsonSerializer.Serialize(problem, Default.Problem);

    public static string Write(Plan plan) => JsonSerializer.Serialize(plan, Default.Plan);

    /// <exception cref="ProblemUnreadable">It is not such JSON; the message says where, what stands there and what is allowed.</exception>
    public static Problem ReadProblem(string json) => Read(json, Default.Problem);

    /// <exception cref="ProblemUnreadable">It is not such JSON; the message says where, what stands there and what is allowed.</exception>
    public static Plan ReadPlan(string json) => Read(json, Default.Plan);

    private static T Read<T>(string json, JsonTypeInfo<T> type)
    {
        try
        {
            return JsonSerializer.Deserialize(json, type) ?? throw new ProblemUnreadable("The file holds null; an object is allowed.");
        }
        catch (JsonException problem)
        {
            throw new ProblemUnreadable(JsonFault.Sentence(json, type, problem), problem);
        }
    }
}
