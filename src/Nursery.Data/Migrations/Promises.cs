using Microsoft.EntityFrameworkCore.Migrations;

namespace Nursery.Data.Migrations;

/// <summary>What the database itself keeps true and EF cannot express (docs/decisions/0002).</summary>
internal static class Promises
{
    public static void AddPromises(this MigrationBuilder migration)
    {
        // No tray space is promised twice. Deferrable, so that two reservations can swap inside one transaction.
        migration.Sql("""
            ALTER TABLE reservations ADD CONSTRAINT ex_reservations_space
            EXCLUDE USING gist (bench_id WITH =, spaces WITH &&, days WITH &&)
            DEFERRABLE INITIALLY IMMEDIATE;
            """);

        // The capacity in a reservation is its bench's: a bench that shrinks below a reservation is refused by the check.
        migration.Sql("""
            ALTER TABLE reservations ADD CONSTRAINT fk_reservations_benches
            FOREIGN KEY (bench_id, capacity) REFERENCES benches (id, capacity) ON UPDATE CASCADE ON DELETE RESTRICT;
            """);

        // The ledger only grows, whoever asks.
        migration.Sql("""
            CREATE FUNCTION refuse_ledger_change() RETURNS trigger LANGUAGE plpgsql AS $$
            BEGIN
                RAISE EXCEPTION 'the ledger is append-only: % refused', TG_OP USING ERRCODE = 'restrict_violation';
            END $$;
            CREATE TRIGGER ledger_append_only BEFORE UPDATE OR DELETE ON ledger
            FOR EACH ROW EXECUTE FUNCTION refuse_ledger_change();
            CREATE TRIGGER ledger_never_truncated BEFORE TRUNCATE ON ledger
            FOR EACH STATEMENT EXECUTE FUNCTION refuse_ledger_change();
            """);
    }

    /// <summary>Nothing is taken out of use twice for one day; a bench and one of its zones may be.</summary>
    public static void AddOutagePromises(this MigrationBuilder migration) => migration.Sql("""
        ALTER TABLE outages ADD CONSTRAINT ex_outages_once
        EXCLUDE USING gist (coalesce(zone_id, bench_id) WITH =, days WITH &&);
        """);
}
