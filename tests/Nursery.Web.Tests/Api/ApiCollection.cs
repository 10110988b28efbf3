using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Tests that share one server; they run one after the other, so each may count rows.</summary>
[CollectionDefinition(Name)]
public sealed class ApiCollection : ICollectionFixture<ApiServer>
{
    public const string Name = "API";
}
