namespace Nursery.Browser.Tests.App;

/// <summary>Where the sources lie, found upwards from the tests.</summary>
internal static class Repository
{
    public static string Folder { get; } = Find();

    /// <summary>Pictures of the run, for people to look at.</summary>
    public static string Pictures { get; } = Directory.CreateDirectory(Path.Combine(Folder, "TestResults", "pictures")).FullName;

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"Nursery.sln is in no folder above {AppContext.BaseDirectory}");
    }
}
