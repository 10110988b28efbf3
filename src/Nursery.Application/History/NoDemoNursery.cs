using Nursery.Domain.Refusals;

namespace Nursery.Application.History;

/// <summary>An invented past belongs into the demo nursery and nowhere else.</summary>
public sealed class NoDemoNursery()
    : Refusal("There is no demo nursery in this database: an invented past is loaded into the demo only, never into a nursery of yours")
{
    public override RefusalKind Kind => RefusalKind.State;
}
