using Nursery.Domain.People;

namespace Nursery.Web.Api.Contract;

/// <summary>The right an endpoint asks for.</summary>
internal sealed record NeededRight(Right Right);
