using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Xunit;

namespace Nursery.Domain.Tests.People;

public sealed class RoleRightsTests
{
    [Theory]
    [InlineData(Role.Administrator, true, true, true, true)]
    [InlineData(Role.HeadGrower, true, true, true, false)]
    [InlineData(Role.Staff, true, false, true, false)]
    [InlineData(Role.Manager, true, false, false, false)]
    public void Of_Role_GivesItsRights(Role role, bool read, bool plan, bool ledger, bool admin)
    {
        var rights = RoleRights.Of(role);

        Assert.Equal(
            (read, plan, ledger, admin),
            (rights.Contains(Right.Read), rights.Contains(Right.Plan), rights.Contains(Right.Ledger), rights.Contains(Right.Admin)));
    }

    [Fact]
    public void Must_RightMissing_SaysWhich()
    {
        var actor = new Actor(Guid.CreateVersion7(), "Ada", new Id<Site>(Guid.CreateVersion7()), RoleRights.Of(Role.Manager));
        actor.Must(Right.Read);

        Assert.Contains("'plan'", Assert.Throws<NotAllowed>(() => actor.Must(Right.Plan)).Message, StringComparison.Ordinal);
    }
}
