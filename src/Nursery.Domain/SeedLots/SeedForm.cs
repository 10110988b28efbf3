namespace Nursery.Domain.SeedLots;

public enum SeedForm
{
    Raw,
    Pelleted,
    Primed,
}
