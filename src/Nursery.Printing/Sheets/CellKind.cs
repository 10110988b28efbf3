namespace Nursery.Printing.Sheets;

internal enum CellKind
{
    Text,
    Tick,
    Field,
}
