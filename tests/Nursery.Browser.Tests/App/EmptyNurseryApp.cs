namespace Nursery.Browser.Tests.App;

/// <summary>The product on the day someone begins with it: a site, an administrator, and nothing else.</summary>
public sealed class EmptyNurseryApp : NurseryApp
{
    protected override bool Demo => false;
}
