using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class ReadingsLightAndFeed : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<decimal>(
                name: "feed_nitrogen_percent",
                table: "sites",
                type: "numeric(5,2)",
                precision: 5,
                scale: 2,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "injector_ratio",
                table: "sites",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "kwh_price",
                table: "sites",
                type: "numeric(9,3)",
                precision: 9,
                scale: 3,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "latitude",
                table: "sites",
                type: "numeric(7,4)",
                precision: 7,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "longitude",
                table: "sites",
                type: "numeric(7,4)",
                precision: 7,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "air_c",
                table: "houses",
                type: "numeric(5,2)",
                precision: 5,
                scale: 2,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "cover_share",
                table: "houses",
                type: "numeric(4,3)",
                precision: 4,
                scale: 3,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "lamp_ppfd",
                table: "houses",
                type: "numeric(6,1)",
                precision: 6,
                scale: 1,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "lamp_watts_m2",
                table: "houses",
                type: "numeric(6,1)",
                precision: 6,
                scale: 1,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "mat_watts_m2",
                table: "heat_zones",
                type: "numeric(6,1)",
                precision: 6,
                scale: 1,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "offset_batches",
                table: "heat_zones",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<decimal>(
                name: "offset_c",
                table: "heat_zones",
                type: "numeric(5,2)",
                precision: 5,
                scale: 2,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "offset_high_c",
                table: "heat_zones",
                type: "numeric(5,2)",
                precision: 5,
                scale: 2,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "offset_low_c",
                table: "heat_zones",
                type: "numeric(5,2)",
                precision: 5,
                scale: 2,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "zone_alarms",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    zone_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    since = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    until = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    worst_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: true),
                    crop_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    min_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: true),
                    max_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_zone_alarms", x => x.id);
                    table.ForeignKey(
                        name: "fk_zone_alarms_heat_zones_zone_id",
                        column: x => x.zone_id,
                        principalTable: "heat_zones",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_zone_alarms_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "zone_readings",
                columns: table => new
                {
                    zone_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    temperature_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_zone_readings", x => new { x.zone_id, x.at });
                    table.ForeignKey(
                        name: "fk_zone_readings_heat_zones_zone_id",
                        column: x => x.zone_id,
                        principalTable: "heat_zones",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_zone_readings_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_zone_alarms_site_id",
                table: "zone_alarms",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_zone_alarms_zone_id_kind",
                table: "zone_alarms",
                columns: new[] { "zone_id", "kind" },
                unique: true,
                filter: "until IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_zone_readings_site_id_at",
                table: "zone_readings",
                columns: new[] { "site_id", "at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "zone_alarms");

            migrationBuilder.DropTable(
                name: "zone_readings");

            migrationBuilder.DropColumn(
                name: "feed_nitrogen_percent",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "injector_ratio",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "kwh_price",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "latitude",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "longitude",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "air_c",
                table: "houses");

            migrationBuilder.DropColumn(
                name: "cover_share",
                table: "houses");

            migrationBuilder.DropColumn(
                name: "lamp_ppfd",
                table: "houses");

            migrationBuilder.DropColumn(
                name: "lamp_watts_m2",
                table: "houses");

            migrationBuilder.DropColumn(
                name: "mat_watts_m2",
                table: "heat_zones");

            migrationBuilder.DropColumn(
                name: "offset_batches",
                table: "heat_zones");

            migrationBuilder.DropColumn(
                name: "offset_c",
                table: "heat_zones");

            migrationBuilder.DropColumn(
                name: "offset_high_c",
                table: "heat_zones");

            migrationBuilder.DropColumn(
                name: "offset_low_c",
                table: "heat_zones");
        }
    }
}
