namespace Nursery.Web.Api.Batches;

/// <summary>The version the batch was read at.</summary>
internal sealed record UnshareTraysBody(int Version);
