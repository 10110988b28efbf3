using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class SharedTraysDeliveriesTrayTypes : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "first_row",
                table: "tray_shares",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "rows",
                table: "tray_shares",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "tray_type_id",
                table: "tray_sets",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "delivery_id",
                table: "allocations",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "order_deliveries",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    order_line_id = table.Column<Guid>(type: "uuid", nullable: false),
                    ready_on = table.Column<LocalDate>(type: "date", nullable: false),
                    plants = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_order_deliveries", x => x.id);
                    table.CheckConstraint("ck_order_deliveries_plants", "plants >= 1");
                    table.ForeignKey(
                        name: "fk_order_deliveries_order_lines_order_line_id",
                        column: x => x.order_line_id,
                        principalTable: "order_lines",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "order_substitutes",
                columns: table => new
                {
                    order_line_id = table.Column<Guid>(type: "uuid", nullable: false),
                    variety_id = table.Column<Guid>(type: "uuid", nullable: false),
                    rank = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_order_substitutes", x => new { x.order_line_id, x.variety_id });
                    table.ForeignKey(
                        name: "fk_order_substitutes_order_lines_order_line_id",
                        column: x => x.order_line_id,
                        principalTable: "order_lines",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_order_substitutes_varieties_variety_id",
                        column: x => x.variety_id,
                        principalTable: "varieties",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tray_types",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    cells = table.Column<int>(type: "integer", nullable: false),
                    cell_volume_ml = table.Column<decimal>(type: "numeric(7,2)", precision: 7, scale: 2, nullable: true),
                    length_mm = table.Column<decimal>(type: "numeric(6,1)", precision: 6, scale: 1, nullable: false),
                    width_mm = table.Column<decimal>(type: "numeric(6,1)", precision: 6, scale: 1, nullable: false),
                    sources = table.Column<string>(type: "character varying(4000)", maxLength: 4000, nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tray_types", x => x.id);
                    table.CheckConstraint("ck_tray_types_cells", "cells between 1 and 512 and cell_volume_ml > 0");
                });

            migrationBuilder.AddCheckConstraint(
                name: "ck_tray_shares_rows",
                table: "tray_shares",
                sql: "(first_row is null) = (rows is null) and coalesce(first_row, 1) >= 1 and coalesce(rows, 1) >= 1");

            migrationBuilder.CreateIndex(
                name: "ix_tray_sets_tray_type_id",
                table: "tray_sets",
                column: "tray_type_id");

            migrationBuilder.CreateIndex(
                name: "ix_allocations_delivery_id",
                table: "allocations",
                column: "delivery_id");

            migrationBuilder.CreateIndex(
                name: "ix_order_deliveries_order_line_id_ready_on",
                table: "order_deliveries",
                columns: new[] { "order_line_id", "ready_on" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_order_substitutes_variety_id",
                table: "order_substitutes",
                column: "variety_id");

            migrationBuilder.CreateIndex(
                name: "ix_tray_types_code",
                table: "tray_types",
                column: "code",
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_allocations_order_deliveries_delivery_id",
                table: "allocations",
                column: "delivery_id",
                principalTable: "order_deliveries",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_tray_sets_tray_types_tray_type_id",
                table: "tray_sets",
                column: "tray_type_id",
                principalTable: "tray_types",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddStartingTrayTypes();
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_allocations_order_deliveries_delivery_id",
                table: "allocations");

            migrationBuilder.DropForeignKey(
                name: "fk_tray_sets_tray_types_tray_type_id",
                table: "tray_sets");

            migrationBuilder.DropTable(
                name: "order_deliveries");

            migrationBuilder.DropTable(
                name: "order_substitutes");

            migrationBuilder.DropTable(
                name: "tray_types");

            migrationBuilder.DropCheckConstraint(
                name: "ck_tray_shares_rows",
                table: "tray_shares");

            migrationBuilder.DropIndex(
                name: "ix_tray_sets_tray_type_id",
                table: "tray_sets");

            migrationBuilder.DropIndex(
                name: "ix_allocations_delivery_id",
                table: "allocations");

            migrationBuilder.DropColumn(
                name: "first_row",
                table: "tray_shares");

            migrationBuilder.DropColumn(
                name: "rows",
                table: "tray_shares");

            migrationBuilder.DropColumn(
                name: "tray_type_id",
                table: "tray_sets");

            migrationBuilder.DropColumn(
                name: "delivery_id",
                table: "allocations");
        }
    }
}
