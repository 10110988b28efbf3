using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class TasksOfPlaces : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_tasks_kind_batch_id_occurrence",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ux_tasks_one_open",
                table: "tasks");

            migrationBuilder.AlterColumn<Guid>(
                name: "batch_id",
                table: "tasks",
                type: "uuid",
                nullable: true,
                oldClrType: typeof(Guid),
                oldType: "uuid");

            migrationBuilder.AddColumn<Guid>(
                name: "bench_id",
                table: "tasks",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "house_id",
                table: "tasks",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<int[]>(
                name: "hand_minutes",
                table: "sites",
                type: "integer[]",
                nullable: true);

            migrationBuilder.AddColumn<int[]>(
                name: "hands",
                table: "sites",
                type: "integer[]",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "house_id",
                table: "ledger",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "feed_every_days",
                table: "crops",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "feed_from_days",
                table: "crops",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "space_days",
                table: "crops",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_cleared_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_discarded_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_fed_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_hardened_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_ready_looked_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_ready_seen_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "state_spaced_on",
                table: "batches",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "subject_id",
                table: "tasks",
                type: "uuid",
                nullable: false,
                computedColumnSql: "coalesce(batch_id, bench_id, house_id)",
                stored: true);

            migrationBuilder.CreateIndex(
                name: "ix_tasks_bench_id",
                table: "tasks",
                column: "bench_id",
                filter: "bench_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_tasks_house_id",
                table: "tasks",
                column: "house_id",
                filter: "house_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_tasks_subject_id_kind_occurrence",
                table: "tasks",
                columns: new[] { "subject_id", "kind", "occurrence" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_tasks_one_open",
                table: "tasks",
                columns: new[] { "subject_id", "kind" },
                unique: true,
                filter: "state = 'Open'");

            migrationBuilder.AddCheckConstraint(
                name: "ck_tasks_one_subject",
                table: "tasks",
                sql: "num_nonnulls(batch_id, bench_id, house_id) = 1");

            migrationBuilder.CreateIndex(
                name: "ix_ledger_bench_id",
                table: "ledger",
                column: "bench_id",
                filter: "batch_id IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_ledger_house_id",
                table: "ledger",
                column: "house_id",
                filter: "house_id IS NOT NULL");

            migrationBuilder.AddForeignKey(
                name: "fk_tasks_benches_bench_id",
                table: "tasks",
                column: "bench_id",
                principalTable: "benches",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_tasks_houses_house_id",
                table: "tasks",
                column: "house_id",
                principalTable: "houses",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_tasks_benches_bench_id",
                table: "tasks");

            migrationBuilder.DropForeignKey(
                name: "fk_tasks_houses_house_id",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ix_tasks_bench_id",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ix_tasks_house_id",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ix_tasks_subject_id_kind_occurrence",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ux_tasks_one_open",
                table: "tasks");

            migrationBuilder.DropCheckConstraint(
                name: "ck_tasks_one_subject",
                table: "tasks");

            migrationBuilder.DropIndex(
                name: "ix_ledger_bench_id",
                table: "ledger");

            migrationBuilder.DropIndex(
                name: "ix_ledger_house_id",
                table: "ledger");

            migrationBuilder.DropColumn(
                name: "subject_id",
                table: "tasks");

            migrationBuilder.DropColumn(
                name: "bench_id",
                table: "tasks");

            migrationBuilder.DropColumn(
                name: "house_id",
                table: "tasks");

            migrationBuilder.DropColumn(
                name: "hand_minutes",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "hands",
                table: "sites");

            migrationBuilder.DropColumn(
                name: "house_id",
                table: "ledger");

            migrationBuilder.DropColumn(
                name: "feed_every_days",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "feed_from_days",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "space_days",
                table: "crops");

            migrationBuilder.DropColumn(
                name: "state_cleared_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_discarded_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_fed_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_hardened_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_ready_looked_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_ready_seen_on",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "state_spaced_on",
                table: "batches");

            migrationBuilder.AlterColumn<Guid>(
                name: "batch_id",
                table: "tasks",
                type: "uuid",
                nullable: false,
                defaultValue: new Guid("00000000-0000-0000-0000-000000000000"),
                oldClrType: typeof(Guid),
                oldType: "uuid",
                oldNullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_tasks_kind_batch_id_occurrence",
                table: "tasks",
                columns: new[] { "kind", "batch_id", "occurrence" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_tasks_one_open",
                table: "tasks",
                columns: new[] { "kind", "batch_id" },
                unique: true,
                filter: "state = 'Open'");
        }
    }
}
