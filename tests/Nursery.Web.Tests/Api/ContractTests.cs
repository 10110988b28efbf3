using System.Text.Json;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Domain.People;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class ContractTests(ApiServer server)
{
    [Fact]
    public async Task Document_IsOpenApi31_AndTellsEveryRouteWithItsAnswersAndRefusals()
    {
        var document = await server.Client.GetJsonAsync("/openapi/v1.json");
        Assert.StartsWith("3.1.", document.Text("openapi"), StringComparison.Ordinal);
        var told = document.GetProperty("paths").EnumerateObject().SelectMany(
            path => path.Value.EnumerateObject().Select(operation => $"{operation.Name.ToUpperInvariant()} {path.Name}"));
        Assert.Equal(Routes().Order(), told.Order());
        foreach (var operation in document.GetProperty("paths").EnumerateObject().SelectMany(path => path.Value.EnumerateObject()))
        {
            Assert.NotEmpty(operation.Value.Text("summary"));
            var answers = operation.Value.GetProperty("responses").EnumerateObject().Select(answer => answer.Name).ToList();
            Assert.Contains(answers, answer => answer is "200" or "201" or "202");
            Assert.Contains("401", answers);
            Assert.True(operation.Value.GetProperty("responses").GetProperty("403").GetProperty("content").TryGetProperty("application/problem+json", out _));
        }
    }

    [Fact]
    public async Task Document_SpellsTypesAsTheyAreSent()
    {
        var document = await server.Client.GetJsonAsync("/openapi/v1.json");
        var schemas = document.GetProperty("components").GetProperty("schemas");
        Assert.Equal("integer", schemas.GetProperty("OrderLineItem").GetProperty("properties").GetProperty("plants").Text("type"));
        Assert.Equal(("string", "date"), Spelt(schemas, "LocalDate"));
        Assert.Equal(("string", "uuid"), Spelt(schemas, "IdOfBench"));
        Assert.Equal("string", schemas.GetProperty("BatchStage").Text("type"));
        Assert.Equal(
            ["varietyCode", "trays", "cellsPerTray", "seedsPerCell", "sowOn"],
            BodyOf(document, "/api/v1/batches", "application/json").GetProperty("required").EnumerateArray().Select(name => name.GetString()));
        Assert.Equal(
            ["field", "value", "allowed"],
            schemas.GetProperty("ApiFieldError").GetProperty("required").EnumerateArray().Select(name => name.GetString()));
        Assert.True(BodyOf(document, "/api/v1/ledger", "application/json").GetProperty("properties").TryGetProperty("entries", out _));
        Assert.Equal("string", BodyOf(document, "/api/v1/orders/import", "text/csv").Text("type"));
        var import = document.GetProperty("paths").GetProperty("/api/v1/orders/import").GetProperty("post");
        Assert.Equal(
            ["dryRun", "Idempotency-Key"], import.GetProperty("parameters").EnumerateArray().Select(parameter => parameter.Text("name")));
    }

    [Fact]
    public async Task Document_WithoutKey_Is401AndNeverARedirect()
    {
        using var client = server.Anonymous();
        using var response = await client.GetAsync("/openapi/v1.json");
        await response.ProblemAsync(401, "NotSignedIn");
        using var planner = await server.ClientWithAsync(Right.Plan);
        using var refused = await planner.GetAsync("/openapi/v1.json");
        await refused.ProblemAsync(403, "NotAllowed");
    }

    [Fact]
    public void Endpoints_OfTheMatrix_AreAllThereAre() =>
        Assert.Equal(Routes().Order(), Endpoint.All.Select(endpoint => $"{endpoint.Method} {endpoint.Path}").Order());

    private static JsonElement BodyOf(JsonElement document, string path, string contentType) => document.GetProperty("paths")
        .GetProperty(path).GetProperty("post").GetProperty("requestBody").GetProperty("content").GetProperty(contentType).GetProperty("schema");

    private static (string Type, string Format) Spelt(JsonElement schemas, string name) =>
        (schemas.GetProperty(name).Text("type"), schemas.GetProperty(name).Text("format"));

    private IEnumerable<string> Routes() => server.Services.GetServices<EndpointDataSource>().SelectMany(source => source.Endpoints)
        .OfType<RouteEndpoint>()
        .Where(route => route.RoutePattern.RawText!.StartsWith("/api/", StringComparison.Ordinal))
        .Select(route => $"{route.Metadata.GetRequiredMetadata<HttpMethodMetadata>().HttpMethods.Single()} {route.RoutePattern.RawText}");
}
