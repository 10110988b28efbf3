using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.TraySets;

namespace Nursery.Data.TraySets;

internal sealed class TrayTypeConfiguration : IEntityTypeConfiguration<TrayType>
{
    public void Configure(EntityTypeBuilder<TrayType> builder)
    {
        builder.ToTable("tray_types");
        builder.HasIndex(type => type.Code).IsUnique();
        builder.Property(type => type.CellVolumeMl).HasPrecision(7, 2);
        builder.Property(type => type.LengthMm).HasPrecision(6, 1);
        builder.Property(type => type.WidthMm).HasPrecision(6, 1);
        builder.Property(type => type.Sources).HasMaxLength(4000);
        builder.Property(type => type.Version).IsConcurrencyToken();
        builder.ToTable(table => table.HasCheckConstraint("ck_tray_types_cells", "cells between 1 and 512 and cell_volume_ml > 0"));
    }
}
