namespace Nursery.Agronomy;

/// <summary>Work done by hand, by the tray or the cell.</summary>
public enum HandWork
{
    FillTray,
    SowTray,
    CarryTray,
    WaterTray,
    CarryOutTray,
    PrickOutTray,
    ThinCell,
    PatchCell,
    LookAtTray,
    CheckTray,
    ScoutTray,
    ClearTray,
}
