using System.Globalization;
using Nursery.Browser.Tests.App;

namespace Nursery.Browser.Tests.Benches;

/// <summary>Trays of the demo that hold spaces today, and a bench with a space to draw them to.</summary>
internal sealed record HeldTrays(Guid Reservation, string Code, string Bench, int First, int Spaces, string House, string ToBench, int ToSpace)
{
    private const string Today = "(SELECT (now() AT TIME ZONE time_zone)::date FROM sites LIMIT 1)";

    /// <summary>Trays on a growing bench, with spaces free for all their days on another one of the house.</summary>
    /// <param name="app">The demo.</param>
    /// <param name="which">From 0; each is another tray set.</param>
    public static Task<HeldTrays> ThatFitElsewhereAsync(NurseryApp app, int which = 0) => FindAsync(
        app,
        $"""
        b.kind = 'Growing' AND c.kind = 'Growing' AND c.id <> b.id AND t.space + upper(r.spaces) - lower(r.spaces) <= c.capacity + 1
        AND NOT EXISTS (SELECT FROM reservations o WHERE o.bench_id = c.id AND o.days && r.days AND o.spaces && int4range(t.space, t.space + upper(r.spaces) - lower(r.spaces)))
        """,
        which);

    /// <summary>Trays on a growing bench, with spaces free for all their days on one of another house.</summary>
    public static Task<HeldTrays> ThatFitInAnotherHouseAsync(NurseryApp app) => FindAsync(
        app,
        $"""
        b.kind = 'Growing' AND c.kind = 'Growing' AND t.space + upper(r.spaces) - lower(r.spaces) <= c.capacity + 1
        AND NOT EXISTS (SELECT FROM reservations o WHERE o.bench_id = c.id AND o.days && r.days AND o.spaces && int4range(t.space, t.space + upper(r.spaces) - lower(r.spaces)))
        """,
        0,
        "<>");

    /// <summary>Trays that would lie on others which stay there.</summary>
    public static Task<HeldTrays> ThatFindTheSpacesTakenAsync(NurseryApp app) => FindAsync(
        app,
        $"""
        b.kind = 'Growing' AND t.space + upper(r.spaces) - lower(r.spaces) <= c.capacity + 1
        AND EXISTS (SELECT FROM reservations o WHERE o.bench_id = c.id AND o.id <> r.id AND o.days @> {Today} AND o.days && r.days AND o.spaces @> t.space)
        """,
        0);

    /// <summary>Trays that would lie on a zone too cold for their seed.</summary>
    public static Task<HeldTrays> ThatWouldLieTooColdAsync(NurseryApp app) => FindAsync(
        app,
        """
        b.kind = 'Germination' AND t.space + upper(r.spaces) - lower(r.spaces) <= c.capacity + 1
        AND EXISTS (SELECT FROM heat_zones z, tray_shares s JOIN batches a ON a.id = s.batch_id JOIN varieties v ON v.id = a.variety_id JOIN crops p ON p.id = v.crop_id
            WHERE z.bench_id = c.id AND z.spaces @> t.space AND s.tray_set_id = r.tray_set_id AND z.setpoint_c < p.germination_min_c)
        """,
        0);

    private static async Task<HeldTrays> FindAsync(NurseryApp app, string where, int which, string house = "=")
    {
        var found = await app.SqlAsync<string>(
            $"""
            SELECT concat_ws('|', r.id, e.code, b.code, lower(r.spaces), upper(r.spaces) - lower(r.spaces), h.code, c.code, min(t.space))
            FROM reservations r JOIN tray_sets e ON e.id = r.tray_set_id JOIN benches b ON b.id = r.bench_id JOIN houses h ON h.id = b.house_id
            JOIN benches c ON c.house_id {house} h.id, LATERAL generate_series(1, c.capacity) AS t(space)
            WHERE r.days @> {Today} AND {where}
            GROUP BY r.id, e.code, b.code, r.spaces, h.code, c.code ORDER BY e.code, r.id, c.code OFFSET {which} LIMIT 1
            """);
        var words = found.Split('|');
        return new HeldTrays(Guid.Parse(words[0]), words[1], words[2], Number(words[3]), Number(words[4]), words[5], words[6], Number(words[7]));
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
