using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class KeptPrints : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "kept_prints",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    pdf = table.Column<byte[]>(type: "bytea", nullable: false),
                    bytes = table.Column<int>(type: "integer", nullable: false),
                    kept_until = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_kept_prints", x => x.id);
                    table.ForeignKey(
                        name: "fk_kept_prints_background_runs_id",
                        column: x => x.id,
                        principalTable: "background_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_kept_prints_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_kept_prints_kept_until",
                table: "kept_prints",
                column: "kept_until");

            migrationBuilder.CreateIndex(
                name: "ix_kept_prints_site_id",
                table: "kept_prints",
                column: "site_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "kept_prints");
        }
    }
}
