using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;
using NpgsqlTypes;

#nullable disable

namespace Nursery.Data.Migrations
{
    /// <inheritdoc />
    public partial class Start : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterDatabase()
                .Annotation("Npgsql:PostgresExtension:btree_gist", ",,");

            migrationBuilder.CreateTable(
                name: "code_counters",
                columns: table => new
                {
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    prefix = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    last = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_code_counters", x => new { x.site_id, x.prefix });
                });

            migrationBuilder.CreateTable(
                name: "crops",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(2)", maxLength: 2, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    species = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    germination_min_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false),
                    germination_optimum_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false),
                    germination_max_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false),
                    days_to_emergence = table.Column<int>(type: "integer", nullable: false),
                    weeks_to_transplant = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false),
                    depth_mm = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false),
                    light = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    cells_per_tray = table.Column<int>(type: "integer", nullable: false),
                    seeds_per_cell = table.Column<int>(type: "integer", nullable: false),
                    move_off_fraction = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false),
                    thin_days_after_emergence = table.Column<int>(type: "integer", nullable: true),
                    hardening_days = table.Column<int>(type: "integer", nullable: false),
                    grow_on_band = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    sources = table.Column<string>(type: "character varying(4000)", maxLength: 4000, nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_crops", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "customers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_customers", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "data_protection_keys",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    friendly_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    xml = table.Column<string>(type: "character varying(16000)", maxLength: 16000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_data_protection_keys", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "idempotent_requests",
                columns: table => new
                {
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    actor_id = table.Column<Guid>(type: "uuid", nullable: false),
                    key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    request_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    status = table.Column<int>(type: "integer", nullable: true),
                    content_type = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    body = table.Column<string>(type: "text", maxLength: -1, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_idempotent_requests", x => new { x.site_id, x.actor_id, x.key });
                });

            migrationBuilder.CreateTable(
                name: "people",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    display_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    password_hash = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    security_stamp = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    concurrency_stamp = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    phone_number = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    access_failed_count = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_people", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "sites",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    time_zone = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    units = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    currency = table.Column<string>(type: "character(3)", fixedLength: true, maxLength: 3, nullable: false),
                    public_address = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    margin_days = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    is_demo = table.Column<bool>(type: "boolean", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sites", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "varieties",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    crop_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_varieties", x => x.id);
                    table.ForeignKey(
                        name: "fk_varieties_crops_crop_id",
                        column: x => x.crop_id,
                        principalTable: "crops",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "person_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    claim_type = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    claim_value = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_person_claims_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_logins",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    provider_key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    provider_display_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_logins", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_person_logins_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_tokens",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    login_provider = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    value = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_tokens", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_person_tokens_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "api_keys",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    secret_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    scopes = table.Column<string[]>(type: "text[]", nullable: false),
                    created_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    expires_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    revoked_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_api_keys", x => x.id);
                    table.ForeignKey(
                        name: "fk_api_keys_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "houses",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    length_cm = table.Column<int>(type: "integer", nullable: false),
                    width_cm = table.Column<int>(type: "integer", nullable: false),
                    round_order = table.Column<int>(type: "integer", nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_houses", x => x.id);
                    table.ForeignKey(
                        name: "fk_houses_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ledger",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    batch_id = table.Column<Guid>(type: "uuid", nullable: true),
                    tray_set_id = table.Column<Guid>(type: "uuid", nullable: true),
                    bench_id = table.Column<Guid>(type: "uuid", nullable: true),
                    lot_id = table.Column<Guid>(type: "uuid", nullable: true),
                    caused_by = table.Column<Guid>(type: "uuid", nullable: true),
                    undo_of = table.Column<Guid>(type: "uuid", nullable: true),
                    who_id = table.Column<Guid>(type: "uuid", nullable: false),
                    who_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    device = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    happened_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    device_skew_ms = table.Column<int>(type: "integer", nullable: false),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    day = table.Column<LocalDate>(type: "date", nullable: false),
                    kind = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    value = table.Column<string>(type: "jsonb", nullable: false),
                    sent = table.Column<string>(type: "jsonb", maxLength: -1, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ledger", x => x.id);
                    table.ForeignKey(
                        name: "fk_ledger_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "orders",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    customer_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_orders", x => x.id);
                    table.ForeignKey(
                        name: "fk_orders_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_orders_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "person_sites",
                columns: table => new
                {
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    role = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_sites", x => new { x.person_id, x.site_id });
                    table.ForeignKey(
                        name: "fk_person_sites_asp_net_users_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_person_sites_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tray_sets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    trays = table.Column<int>(type: "integer", nullable: false),
                    cells_per_tray = table.Column<int>(type: "integer", nullable: false),
                    footprint = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tray_sets", x => x.id);
                    table.CheckConstraint("ck_tray_sets_trays", "trays >= 1 and cells_per_tray >= 1 and footprint > 0");
                    table.ForeignKey(
                        name: "fk_tray_sets_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "seed_lots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    variety_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    supplier = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    supplier_lot = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    form = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    treated = table.Column<bool>(type: "boolean", nullable: false),
                    label_germination = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false),
                    tested_on = table.Column<LocalDate>(type: "date", nullable: false),
                    seeds_per_gram = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: false),
                    stock_seeds = table.Column<int>(type: "integer", nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_seed_lots", x => x.id);
                    table.CheckConstraint("ck_seed_lots_stock", "stock_seeds >= 0");
                    table.ForeignKey(
                        name: "fk_seed_lots_varieties_variety_id",
                        column: x => x.variety_id,
                        principalTable: "varieties",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "benches",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    house_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    kind = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    band = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: true),
                    length_cm = table.Column<int>(type: "integer", nullable: false),
                    width_cm = table.Column<int>(type: "integer", nullable: false),
                    x_cm = table.Column<int>(type: "integer", nullable: false),
                    y_cm = table.Column<int>(type: "integer", nullable: false),
                    capacity = table.Column<int>(type: "integer", nullable: false),
                    rows = table.Column<int>(type: "integer", nullable: false),
                    round_order = table.Column<int>(type: "integer", nullable: false),
                    retired_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_benches", x => x.id);
                    table.CheckConstraint("ck_benches_capacity", "capacity >= 1 and rows >= 1");
                    table.ForeignKey(
                        name: "fk_benches_houses_house_id",
                        column: x => x.house_id,
                        principalTable: "houses",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_benches_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "order_lines",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    order_id = table.Column<Guid>(type: "uuid", nullable: false),
                    variety_id = table.Column<Guid>(type: "uuid", nullable: false),
                    plants = table.Column<int>(type: "integer", nullable: false),
                    ready_on = table.Column<LocalDate>(type: "date", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_order_lines", x => x.id);
                    table.CheckConstraint("ck_order_lines_plants", "plants >= 1");
                    table.ForeignKey(
                        name: "fk_order_lines_orders_order_id",
                        column: x => x.order_id,
                        principalTable: "orders",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_order_lines_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_order_lines_varieties_variety_id",
                        column: x => x.variety_id,
                        principalTable: "varieties",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reservations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tray_set_id = table.Column<Guid>(type: "uuid", nullable: false),
                    trays = table.Column<NpgsqlRange<int>>(type: "int4range", nullable: false),
                    bench_id = table.Column<Guid>(type: "uuid", nullable: false),
                    capacity = table.Column<int>(type: "integer", nullable: false),
                    spaces = table.Column<NpgsqlRange<int>>(type: "int4range", nullable: false),
                    days = table.Column<DateInterval>(type: "daterange", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reservations", x => x.id);
                    table.CheckConstraint("ck_reservations_not_empty", "not isempty(days) and not isempty(spaces) and not isempty(trays)");
                    table.CheckConstraint("ck_reservations_on_bench", "lower(spaces) >= 1 and upper(spaces) <= capacity + 1");
                    table.ForeignKey(
                        name: "fk_reservations_tray_sets_tray_set_id",
                        column: x => x.tray_set_id,
                        principalTable: "tray_sets",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batches",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    variety_id = table.Column<Guid>(type: "uuid", nullable: false),
                    lot_id = table.Column<Guid>(type: "uuid", nullable: true),
                    resown_for = table.Column<Guid>(type: "uuid", nullable: true),
                    cells = table.Column<int>(type: "integer", nullable: false),
                    seeds_per_cell = table.Column<int>(type: "integer", nullable: false),
                    sow_on = table.Column<LocalDate>(type: "date", nullable: false),
                    ready_on = table.Column<LocalDate>(type: "date", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    state_cells_sown = table.Column<int>(type: "integer", nullable: false),
                    state_cells_up = table.Column<int>(type: "integer", nullable: true),
                    state_counted_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_counted_seeds = table.Column<int>(type: "integer", nullable: true),
                    state_counted_up = table.Column<decimal>(type: "numeric(12,4)", precision: 12, scale: 4, nullable: true),
                    state_first_up_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_handed_over_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_looked_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_lost = table.Column<int>(type: "integer", nullable: false),
                    state_lot_id = table.Column<Guid>(type: "uuid", nullable: true),
                    state_off_heat_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_seeds_sown = table.Column<int>(type: "integer", nullable: false),
                    state_sown_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_stage = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    state_thinned_on = table.Column<LocalDate>(type: "date", nullable: true),
                    state_watered_on = table.Column<LocalDate>(type: "date", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_batches", x => x.id);
                    table.ForeignKey(
                        name: "fk_batches_batches_resown_for",
                        column: x => x.resown_for,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_batches_seed_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "seed_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_batches_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_batches_varieties_variety_id",
                        column: x => x.variety_id,
                        principalTable: "varieties",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "heat_zones",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    bench_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    spaces = table.Column<NpgsqlRange<int>>(type: "int4range", nullable: false),
                    setpoint_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: false),
                    reads_c = table.Column<decimal>(type: "numeric(5,2)", precision: 5, scale: 2, nullable: true),
                    read_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_heat_zones", x => x.id);
                    table.ForeignKey(
                        name: "fk_heat_zones_benches_bench_id",
                        column: x => x.bench_id,
                        principalTable: "benches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_heat_zones_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "standings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tray_set_id = table.Column<Guid>(type: "uuid", nullable: false),
                    trays = table.Column<NpgsqlRange<int>>(type: "int4range", nullable: false),
                    bench_id = table.Column<Guid>(type: "uuid", nullable: false),
                    spaces = table.Column<NpgsqlRange<int>>(type: "int4range", nullable: true),
                    since = table.Column<LocalDate>(type: "date", nullable: false),
                    entry_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_standings", x => x.id);
                    table.ForeignKey(
                        name: "fk_standings_benches_bench_id",
                        column: x => x.bench_id,
                        principalTable: "benches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_standings_tray_sets_tray_set_id",
                        column: x => x.tray_set_id,
                        principalTable: "tray_sets",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "allocations",
                columns: table => new
                {
                    batch_id = table.Column<Guid>(type: "uuid", nullable: false),
                    order_line_id = table.Column<Guid>(type: "uuid", nullable: false),
                    plants = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_allocations", x => new { x.batch_id, x.order_line_id });
                    table.CheckConstraint("ck_allocations_plants", "plants >= 1");
                    table.ForeignKey(
                        name: "fk_allocations_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_allocations_order_lines_order_line_id",
                        column: x => x.order_line_id,
                        principalTable: "order_lines",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tasks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    batch_id = table.Column<Guid>(type: "uuid", nullable: false),
                    occurrence = table.Column<int>(type: "integer", nullable: false),
                    due_on = table.Column<LocalDate>(type: "date", nullable: false),
                    why = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    state = table.Column<string>(type: "character varying(24)", maxLength: 24, nullable: false),
                    done_on = table.Column<LocalDate>(type: "date", nullable: true),
                    done_by = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tasks", x => x.id);
                    table.ForeignKey(
                        name: "fk_tasks_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tray_shares",
                columns: table => new
                {
                    tray_set_id = table.Column<Guid>(type: "uuid", nullable: false),
                    batch_id = table.Column<Guid>(type: "uuid", nullable: false),
                    cells = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tray_shares", x => new { x.tray_set_id, x.batch_id });
                    table.ForeignKey(
                        name: "fk_tray_shares_batches_batch_id",
                        column: x => x.batch_id,
                        principalTable: "batches",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_tray_shares_tray_sets_tray_set_id",
                        column: x => x.tray_set_id,
                        principalTable: "tray_sets",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_allocations_order_line_id",
                table: "allocations",
                column: "order_line_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_keys_secret_hash",
                table: "api_keys",
                column: "secret_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_api_keys_site_id",
                table: "api_keys",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_batches_lot_id",
                table: "batches",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_batches_resown_for",
                table: "batches",
                column: "resown_for");

            migrationBuilder.CreateIndex(
                name: "ix_batches_site_id_code",
                table: "batches",
                columns: new[] { "site_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_batches_site_id_sow_on",
                table: "batches",
                columns: new[] { "site_id", "sow_on" });

            migrationBuilder.CreateIndex(
                name: "ix_batches_variety_id",
                table: "batches",
                column: "variety_id");

            migrationBuilder.CreateIndex(
                name: "ix_benches_house_id",
                table: "benches",
                column: "house_id");

            migrationBuilder.CreateIndex(
                name: "ix_benches_id_capacity",
                table: "benches",
                columns: new[] { "id", "capacity" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_benches_site_id_code",
                table: "benches",
                columns: new[] { "site_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_crops_code",
                table: "crops",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_customers_name",
                table: "customers",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_heat_zones_bench_id",
                table: "heat_zones",
                column: "bench_id");

            migrationBuilder.CreateIndex(
                name: "ix_heat_zones_site_id_code",
                table: "heat_zones",
                columns: new[] { "site_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_houses_site_id_code",
                table: "houses",
                columns: new[] { "site_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_ledger_batch_id",
                table: "ledger",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_ledger_site_id_day_kind",
                table: "ledger",
                columns: new[] { "site_id", "day", "kind" });

            migrationBuilder.CreateIndex(
                name: "ix_ledger_tray_set_id",
                table: "ledger",
                column: "tray_set_id");

            migrationBuilder.CreateIndex(
                name: "ix_ledger_undo_of",
                table: "ledger",
                column: "undo_of");

            migrationBuilder.CreateIndex(
                name: "ix_order_lines_order_id_variety_id_ready_on",
                table: "order_lines",
                columns: new[] { "order_id", "variety_id", "ready_on" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_order_lines_site_id_ready_on",
                table: "order_lines",
                columns: new[] { "site_id", "ready_on" });

            migrationBuilder.CreateIndex(
                name: "ix_order_lines_variety_id",
                table: "order_lines",
                column: "variety_id");

            migrationBuilder.CreateIndex(
                name: "ix_orders_customer_id",
                table: "orders",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ix_orders_site_id_number",
                table: "orders",
                columns: new[] { "site_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "people",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "people",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_person_claims_user_id",
                table: "person_claims",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_logins_user_id",
                table: "person_logins",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_person_sites_site_id",
                table: "person_sites",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_reservations_site_id",
                table: "reservations",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_reservations_tray_set_id",
                table: "reservations",
                column: "tray_set_id");

            migrationBuilder.CreateIndex(
                name: "ix_seed_lots_code",
                table: "seed_lots",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_seed_lots_variety_id",
                table: "seed_lots",
                column: "variety_id");

            migrationBuilder.CreateIndex(
                name: "ix_sites_code",
                table: "sites",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_standings_bench_id",
                table: "standings",
                column: "bench_id");

            migrationBuilder.CreateIndex(
                name: "ix_standings_site_id_bench_id",
                table: "standings",
                columns: new[] { "site_id", "bench_id" });

            migrationBuilder.CreateIndex(
                name: "ix_standings_tray_set_id",
                table: "standings",
                column: "tray_set_id");

            migrationBuilder.CreateIndex(
                name: "ix_tasks_batch_id",
                table: "tasks",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_tasks_kind_batch_id_occurrence",
                table: "tasks",
                columns: new[] { "kind", "batch_id", "occurrence" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tasks_site_id_state_due_on",
                table: "tasks",
                columns: new[] { "site_id", "state", "due_on" });

            migrationBuilder.CreateIndex(
                name: "ux_tasks_one_open",
                table: "tasks",
                columns: new[] { "kind", "batch_id" },
                unique: true,
                filter: "state = 'Open'");

            migrationBuilder.CreateIndex(
                name: "ix_tray_sets_site_id_code",
                table: "tray_sets",
                columns: new[] { "site_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tray_shares_batch_id",
                table: "tray_shares",
                column: "batch_id");

            migrationBuilder.CreateIndex(
                name: "ix_varieties_code",
                table: "varieties",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_varieties_crop_id",
                table: "varieties",
                column: "crop_id");

            migrationBuilder.AddPromises();
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "allocations");

            migrationBuilder.DropTable(
                name: "api_keys");

            migrationBuilder.DropTable(
                name: "code_counters");

            migrationBuilder.DropTable(
                name: "data_protection_keys");

            migrationBuilder.DropTable(
                name: "heat_zones");

            migrationBuilder.DropTable(
                name: "idempotent_requests");

            migrationBuilder.DropTable(
                name: "ledger");

            migrationBuilder.DropTable(
                name: "person_claims");

            migrationBuilder.DropTable(
                name: "person_logins");

            migrationBuilder.DropTable(
                name: "person_sites");

            migrationBuilder.DropTable(
                name: "person_tokens");

            migrationBuilder.DropTable(
                name: "reservations");

            migrationBuilder.DropTable(
                name: "standings");

            migrationBuilder.DropTable(
                name: "tasks");

            migrationBuilder.DropTable(
                name: "tray_shares");

            migrationBuilder.DropTable(
                name: "order_lines");

            migrationBuilder.DropTable(
                name: "people");

            migrationBuilder.DropTable(
                name: "benches");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropTable(
                name: "tray_sets");

            migrationBuilder.DropTable(
                name: "orders");

            migrationBuilder.DropTable(
                name: "houses");

            migrationBuilder.DropTable(
                name: "seed_lots");

            migrationBuilder.DropTable(
                name: "customers");

            migrationBuilder.DropTable(
                name: "sites");

            migrationBuilder.DropTable(
                name: "varieties");

            migrationBuilder.DropTable(
                name: "crops");
        }
    }
}
