using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Runs;

/// <summary>The PDF a run made, kept for <see cref="Keep"/>. The run itself stays.</summary>
public sealed class KeptPrint
{
    public required Id<BackgroundRun> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required byte[] Pdf { get; init; }

    /// <summary>Length of the PDF, bytes.</summary>
    public required int Bytes { get; init; }
    public required Instant KeptUntil { get; init; }

    /// <summary>Long enough to fetch what was started in the evening the next morning.</summary>
    public static Duration Keep { get; } = Duration.FromDays(1);
}
