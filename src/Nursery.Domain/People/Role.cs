namespace Nursery.Domain.People;

public enum Role
{
    Administrator,
    HeadGrower,
    Staff,
    Manager,
}
