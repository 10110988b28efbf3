namespace Nursery.Domain.Orders;

/// <summary>Shared by all sites.</summary>
public sealed class Customer
{
    public required Id<Customer> Id { get; init; }
    public required string Name { get; set; }
}
