using NodaTime;

namespace Nursery.Application.Rounds;

/// <summary>Something that happened, as a client reports it. The client makes the id (UUIDv7): sent twice, it is stored once.</summary>
/// <param name="Id">The entry's id.</param>
/// <param name="HappenedAt">When, with the device's offset.</param>
/// <param name="Content">What.</param>
public sealed record EntryRequest(Guid Id, OffsetDateTime HappenedAt, EntryContent Content);
