using Nursery.Domain.People;
using Nursery.Domain.Runs;

namespace Nursery.Application.Runs;

internal static class RunRights
{
    /// <summary>What it takes to start or stop a run, and what its work is done with.</summary>
    public static Right For(RunKind kind) => kind switch
    {
        RunKind.FirstFit or RunKind.Plan => Right.Plan,
        RunKind.TrayTags => Right.Read,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a run nobody may start"),
    };
}
