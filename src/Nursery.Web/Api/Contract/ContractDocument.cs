using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using Nursery.Domain.People;

namespace Nursery.Web.Api.Contract;

/// <summary>The contract as OpenAPI 3.1 at /openapi/v1.json.</summary>
internal static class ContractDocument
{
    private const string Name = "v1";
    private const string Scheme = "apiKey";

    public static void AddContractDocument(this IServiceCollection services) => services.AddOpenApi(Name, options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.ShouldInclude = endpoint => endpoint.RelativePath?.StartsWith("api/v1/", StringComparison.Ordinal) == true;
        options.AddDocumentTransformer((document, _, _) => Describe(document));
        options.AddOperationTransformer(DescribeAsync);
        options.AddSchemaTransformer((schema, context, _) => ContractSchema.Mend(schema, context.JsonTypeInfo.Type));
    });

    public static void MapContractDocument(this WebApplication app) =>
        app.MapOpenApi("/openapi/{documentName}.json")
            .RequireAuthorization(nameof(Right.Read))
            .WithMetadata(new NeededRight(Right.Read));

    private static Task Describe(OpenApiDocument document)
    {
        document.Info = new OpenApiInfo
        {
            Title = "Nursery",
            Version = Name,
            Description = "Orders, batches, tray spaces, tasks and counts of a propagation nursery. Errors are problem details "
                + "(RFC 9457) with a code, the fields at fault and facts.",
        };

        // Whoever asks knows the address; what the server believes of it would be wrong behind a proxy.
        document.Servers = [];
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
        {
            [Scheme] = new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = "bearer",
                Description = "Authorization: Bearer nur_…",
            },
        };
        document.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(Scheme, document)] = [] }];
        return Task.CompletedTask;
    }

    private static async Task DescribeAsync(
        OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellation)
    {
        var metadata = context.Description.ActionDescriptor.EndpointMetadata;
        operation.Parameters ??= [];
        foreach (var value in metadata.OfType<QueryValue>())
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = value.Name,
                In = ParameterLocation.Query,
                Description = value.Description,
                Schema = new OpenApiSchema
                {
                    Type = value.Type,
                    Format = value.Format,
                    Enum = value.Words is { } words ? [.. words.Select(word => (JsonNode)JsonValue.Create(word)!)] : null,
                },
            });
        }

        if (metadata.OfType<TakesIdempotencyKey>().Any())
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = "Idempotency-Key",
                In = ParameterLocation.Header,
                Description = "sent again within 24 hours with the same request, the same answer; nothing is done twice",
                Schema = new OpenApiSchema { Type = JsonSchemaType.String, MinLength = 1, MaxLength = 200 },
            });
        }

        if (metadata.OfType<BodyShape>().FirstOrDefault() is { } body)
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = body.Required,
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [body.ContentType] = new OpenApiMediaType
                    {
                        Schema = await context.GetOrCreateSchemaAsync(body.Type, null, cancellation),
                    },
                },
            };
        }
    }
}
