using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Data.Reservations;

internal sealed class ReservationConfiguration : IEntityTypeConfiguration<Reservation>
{
    public void Configure(EntityTypeBuilder<Reservation> builder)
    {
        builder.ToTable("reservations");
        builder.HasIndex(reservation => reservation.TraySetId);
        builder.HasIndex(reservation => reservation.SiteId);
        builder.Ignore(reservation => reservation.To);
        builder.HasOne<TraySet>().WithMany().HasForeignKey(reservation => reservation.TraySetId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table =>
        {
            table.HasCheckConstraint("ck_reservations_not_empty", "not isempty(days) and not isempty(spaces) and not isempty(trays)");
            table.HasCheckConstraint("ck_reservations_on_bench", "lower(spaces) >= 1 and upper(spaces) <= capacity + 1");
        });
    }
}
