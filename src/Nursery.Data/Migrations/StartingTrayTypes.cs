using Microsoft.EntityFrameworkCore.Migrations;

namespace Nursery.Data.Migrations;

/// <summary>Tray types a nursery starts with, to be changed or retired like any others.</summary>
internal static class StartingTrayTypes
{
    /// <summary>Mix a cell holds by cells a tray. Source: Ontario ministry of agriculture, plug-tray vegetable transplants.</summary>
    private static readonly (int Cells, decimal VolumeMl)[] _volumes =
        [(24, 171), (38, 106), (50, 66), (72, 43), (128, 23), (200, 11), (288, 7)];

    private const string Sources = "cell volume: Ontario ministry of agriculture, plug-tray vegetable transplants; outer size: the common flat, "
        + "common practice, no source. Measure your own trays";

    public static void AddStartingTrayTypes(this MigrationBuilder migration)
    {
        foreach (var (cells, volume) in _volumes)
        {
            migration.InsertData(
                "tray_types",
                ["id", "code", "name", "cells", "cell_volume_ml", "length_mm", "width_mm", "sources", "version"],
                [new Guid(0x7e57_0000 + cells, 0, 0x7000, [0x80, 0, 0, 0, 0, 0, 0, 1]), $"P{cells}", $"Plug tray, {cells} cells", cells, volume, 544m, 277m, Sources, 1]);
        }
    }
}
