using Microsoft.OpenApi;
using NodaTime;
using Nursery.Domain;

namespace Nursery.Web.Api.Contract;

/// <summary>Says of our types what JSON makes of them: the framework sees converters and cannot know.</summary>
internal static class ContractSchema
{
    /// <summary>Types of use cases that are sent to us end in this.</summary>
    private const string Sent = "Request";

    public static Task Mend(OpenApiSchema schema, Type type)
    {
        var value = Nullable.GetUnderlyingType(type) ?? type;
        var none = value == type ? 0 : JsonSchemaType.Null;
        if (value == typeof(LocalDate))
        {
            (schema.Type, schema.Format) = (JsonSchemaType.String | none, "date");
        }
        else if (value == typeof(Instant) || value == typeof(OffsetDateTime))
        {
            (schema.Type, schema.Format) = (JsonSchemaType.String | none, "date-time");
        }
        else if (value.IsGenericType && value.GetGenericTypeDefinition() == typeof(Id<>))
        {
            (schema.Type, schema.Format) = (JsonSchemaType.String | none, "uuid");
        }
        else if (value.IsEnum)
        {
            schema.Type = JsonSchemaType.String | none;
        }
        else if (value.Name.EndsWith(Sent, StringComparison.Ordinal))
        {
            // What may be null may as well be left out; in answers it is always there.
            schema.Required?.ExceptWith(schema.Required.Where(name => MayBeNull(schema.Properties![name])).ToList());
        }

        return Task.CompletedTask;
    }

    private static bool MayBeNull(IOpenApiSchema schema) =>
        schema.Type?.HasFlag(JsonSchemaType.Null) == true || schema.OneOf?.Any(MayBeNull) == true;
}
