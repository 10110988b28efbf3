namespace Nursery.Domain;

/// <summary>Makes ids.</summary>
public static class NewId
{
    public static Id<T> Of<T>(TimeProvider time) => new(Guid.CreateVersion7(time.GetUtcNow()));
}
