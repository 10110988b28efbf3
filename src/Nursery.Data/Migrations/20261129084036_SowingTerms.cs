using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class SowingTerms : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<decimal>(
                name: "heat_price",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "hour_price",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "mix_amendments",
                table: "sites",
                type: "character varying(200)",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "mix_expansion",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "mix_package_liters",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "seed_price",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "sowing_confidence",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "tray_loss",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "tray_price",
                table: "sites",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "keep_high",
                table: "crops",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "keep_low",
                table: "crops",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "seed_price",
                table: "crops",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "survival",
                table: "crops",
                type: "numeric(12,4)",
                precision: 12,
                scale: 4,
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "heat_price",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "hour_price",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "mix_amendments",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "mix_expansion",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "mix_package_liters",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "seed_price",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "sowing_confidence",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "tray_loss",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "tray_price",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "keep_high",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "keep_low",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "seed_price",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "survival",
                table: "crops");
        }
    }
}
