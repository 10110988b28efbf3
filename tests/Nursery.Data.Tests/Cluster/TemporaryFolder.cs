namespace Nursery.Data.Tests.Cluster;

/// <summary>A folder for one test, with a space and shell characters in its name, removed at the end.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = System.IO.Path.Combine(System.IO.Path.GetTempPath(), $"nursery $\"data\"'s {Guid.NewGuid():N}");

    public void Dispose()
    {
        if (Directory.Exists(Path))
        {
            Directory.Delete(Path, recursive: true);
        }
    }
}
