using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class BackgroundRuns : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "background_runs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    state = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    done = table.Column<int>(type: "integer", nullable: false),
                    total = table.Column<int>(type: "integer", nullable: false),
                    message = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    started_by_id = table.Column<Guid>(type: "uuid", nullable: false),
                    started_by = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    device = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    started_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    alive_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    stop_requested = table.Column<bool>(type: "boolean", nullable: false),
                    result = table.Column<string>(type: "jsonb", maxLength: -1, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_background_runs", x => x.id);
                    table.ForeignKey(
                        name: "fk_background_runs_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_background_runs_site_id_kind_started_at",
                table: "background_runs",
                columns: new[] { "site_id", "kind", "started_at" });

            migrationBuilder.CreateIndex(
                name: "ux_background_runs_live",
                table: "background_runs",
                columns: new[] { "site_id", "kind" },
                unique: true,
                filter: "state IN ('Queued', 'Running')");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "background_runs");
        }
    }
}
