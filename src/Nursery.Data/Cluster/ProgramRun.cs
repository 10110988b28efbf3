namespace Nursery.Data.Cluster;

/// <summary>How a PostgreSQL program ended and what it printed.</summary>
internal sealed record ProgramRun(int ExitCode, string Output)
{
    public bool Succeeded => ExitCode == 0;
}
