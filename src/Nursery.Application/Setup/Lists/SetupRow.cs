using NodaTime;

namespace Nursery.Application.Setup.Lists;

/// <summary>A row as its file would hold it.</summary>
public sealed record SetupRow(
    Guid Id, string Key, int Version, IReadOnlyDictionary<string, string> Fields, LocalDate? RetiredOn);
