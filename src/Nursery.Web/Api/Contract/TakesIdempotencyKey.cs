namespace Nursery.Web.Api.Contract;

/// <summary>Marks an endpoint that takes an Idempotency-Key, for the contract.</summary>
internal sealed record TakesIdempotencyKey;
