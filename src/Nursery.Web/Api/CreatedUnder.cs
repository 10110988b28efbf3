namespace Nursery.Web.Api;

/// <summary>Where what an endpoint creates is found afterwards: this path and its id.</summary>
internal sealed record CreatedUnder(string Path);
