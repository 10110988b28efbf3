using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class BenchesOutOfUse : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "outages",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    bench_id = table.Column<Guid>(type: "uuid", nullable: false),
                    zone_id = table.Column<Guid>(type: "uuid", nullable: true),
                    days = table.Column<DateInterval>(type: "daterange", nullable: false),
                    why = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    who_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outages", x => x.id);
                    table.CheckConstraint("ck_outages_not_empty", "not isempty(days)");
                    table.ForeignKey(
                        name: "fk_outages_benches_bench_id",
                        column: x => x.bench_id,
                        principalTable: "benches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_outages_heat_zones_zone_id",
                        column: x => x.zone_id,
                        principalTable: "heat_zones",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_outages_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_outages_bench_id",
                table: "outages",
                column: "bench_id");

            migrationBuilder.CreateIndex(
                name: "ix_outages_site_id",
                table: "outages",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_outages_zone_id",
                table: "outages",
                column: "zone_id");

            migrationBuilder.AddOutagePromises();
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "outages");
        }
    }
}
