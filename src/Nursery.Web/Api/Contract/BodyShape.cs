namespace Nursery.Web.Api.Contract;

/// <summary>What an endpoint reads from the body, for the contract. Not the framework's own metadata: that would refuse a
/// wrong content type before asking who calls.</summary>
internal sealed record BodyShape(Type Type, string ContentType, bool Required);
