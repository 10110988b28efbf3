namespace Nursery.Bounds;

/// <summary>Whoever started this program holds its input open and writes nothing. When that ends they are gone, however they went, and
/// nobody waits for an answer any more.</summary>
internal static class OrphanWatch
{
    private const int Orphaned = 3;

    public static void Start() => new Thread(Watch) { IsBackground = true }.Start();

    private static void Watch()
    {
        using var input = Console.OpenStandardInput();
        while (input.ReadByte() >= 0)
        {
        }

        Environment.Exit(Orphaned);
    }
}
