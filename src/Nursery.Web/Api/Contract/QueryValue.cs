using Microsoft.OpenApi;

namespace Nursery.Web.Api.Contract;

/// <summary>A value an endpoint takes from its address's query, for the contract.</summary>
internal sealed record QueryValue(string Name, JsonSchemaType Type, string Description, string? Format = null, string[]? Words = null);
