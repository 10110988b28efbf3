using Nursery.Domain.Refusals;

namespace Nursery.Application.Scenario;

/// <summary>A scenario is loaded into an empty database only.</summary>
public sealed class DatabaseNotEmpty(string siteName)
    : Refusal($"The database already holds the site {siteName}: a nursery is loaded into an empty database only")
{
    public override RefusalKind Kind => RefusalKind.State;
}
