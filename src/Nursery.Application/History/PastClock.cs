using NodaTime;

namespace Nursery.Application.History;

/// <summary>A clock that stands where it is put: with it the use cases live through the past as if it were now.</summary>
internal sealed class PastClock : TimeProvider
{
    private DateTimeOffset _now;

    public void Set(Instant now) => _now = now.ToDateTimeOffset();

    public override DateTimeOffset GetUtcNow() => _now;
}
