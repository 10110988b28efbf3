using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class RoundSheets : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "round_sheets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    day = table.Column<LocalDate>(type: "date", nullable: false),
                    printed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    task_ids = table.Column<Guid[]>(type: "uuid[]", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_round_sheets", x => x.id);
                    table.ForeignKey(
                        name: "fk_round_sheets_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_round_sheets_site_id_day",
                table: "round_sheets",
                columns: new[] { "site_id", "day" });

            migrationBuilder.CreateIndex(
                name: "ix_round_sheets_site_id_number",
                table: "round_sheets",
                columns: new[] { "site_id", "number" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "round_sheets");
        }
    }
}
