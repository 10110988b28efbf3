namespace Nursery.Application.Orders;

/// <summary>A variety the customer takes instead.</summary>
public sealed record LineSubstitute(string Code, string Name);
