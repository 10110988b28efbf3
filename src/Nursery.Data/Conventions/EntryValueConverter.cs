using System.Text.Json;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using Nursery.Domain.Ledger;

namespace Nursery.Data.Conventions;

/// <summary>Ledger values as jsonb. PostgreSQL reorders members, so the kind need not come first.</summary>
internal sealed class EntryValueConverter() : ValueConverter<EntryValue, string>(
    value => JsonSerializer.Serialize(value, Options),
    json => JsonSerializer.Deserialize<EntryValue>(json, Options)!)
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        AllowOutOfOrderMetadataProperties = true,
        Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };
}
