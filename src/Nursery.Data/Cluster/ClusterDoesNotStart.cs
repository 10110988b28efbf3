namespace Nursery.Data.Cluster;

public sealed class ClusterDoesNotStart(string sentence, Exception? inner = null) : ClusterRefusal(sentence, inner)
{
    public static ClusterDoesNotStart Saying(string step, string folder, string output) => new(
        $"The private PostgreSQL in {folder} could not {step}. It said: {output.Trim()}");
}
