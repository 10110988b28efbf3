namespace Nursery.Benchmarks.Plans;

internal static class ReplanBenchmark
{
    public static int Run() => 0;
}
