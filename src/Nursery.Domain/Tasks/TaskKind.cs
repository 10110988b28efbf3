namespace Nursery.Domain.Tasks;

public enum TaskKind
{
    Sow,
    Water,
    EmergenceCheck,
    MoveOffHeat,
    Thin,
    HandOver,
}
