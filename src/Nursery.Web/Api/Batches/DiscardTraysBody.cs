namespace Nursery.Web.Api.Batches;

/// <summary>Trays by their numbers in the tray set: so many from the first. The entry's id is made by the client.</summary>
internal sealed record DiscardTraysBody(Guid EntryId, int FirstTray, int Trays, string Cause);
