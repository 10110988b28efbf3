using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class SetpointsByDays : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "zone_setpoints",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    zone_id = table.Column<Guid>(type: "uuid", nullable: false),
                    days = table.Column<DateInterval>(type: "daterange", nullable: false),
                    setpoint_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_zone_setpoints", x => x.id);
                    table.ForeignKey(
                        name: "fk_zone_setpoints_heat_zones_zone_id",
                        column: x => x.zone_id,
                        principalTable: "heat_zones",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_zone_setpoints_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_zone_setpoints_site_id",
                table: "zone_setpoints",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_zone_setpoints_zone_id",
                table: "zone_setpoints",
                column: "zone_id");

            // A zone has one setpoint a day. Deferrable, so that spans can be cut and written anew in one transaction.
            migrationBuilder.Sql("""
                ALTER TABLE zone_setpoints ADD CONSTRAINT ex_zone_setpoints_days
                EXCLUDE USING gist (zone_id WITH =, days WITH &&) DEFERRABLE INITIALLY DEFERRED;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "zone_setpoints");
        }
    }
}
