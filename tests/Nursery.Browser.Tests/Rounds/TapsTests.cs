using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>A whole round of 120 tasks on a tablet, every tap counted: groups in one go, each emergence check with a real count of a
/// tray, its digits tapped one by one.</summary>
public sealed class TapsTests(NurseryApp app, ITestOutputHelper output) : IClassFixture<NurseryApp>
{
    private const int Tasks = 120;
    private const double MostTapsATask = 1.2;

    /// <summary>The demo's day, made longer: batches with work today get twins with the same history, standing where they stand: a dozen
    /// with an emergence check, which takes the most taps, then of all kinds as the demo mixes them.</summary>
    private const string Lengthen =
        """
        DO $$
        DECLARE source record; new_batch uuid; new_set uuid; made int := 0; due int;
        BEGIN
          UPDATE seed_lots SET stock_seeds = stock_seeds + 100000;
          LOOP
            FOR source IN
              SELECT DISTINCT b.id AS batch, s.tray_set_id AS tray_set FROM tasks t JOIN batches b ON b.id = t.batch_id JOIN tray_shares s ON s.batch_id = b.id
              WHERE t.state = 'Open' AND t.due_on <= CURRENT_DATE AND b.code NOT LIKE 'XX-%'
                AND NOT EXISTS (SELECT FROM tray_shares o WHERE o.tray_set_id = s.tray_set_id AND o.batch_id <> b.id) 
                AND (made >= 12 OR t.kind = 'EmergenceCheck') ORDER BY 1
            LOOP
              SELECT count(*) INTO due FROM tasks WHERE state = 'Open' AND due_on <= CURRENT_DATE;
              IF due >= 120 THEN RETURN; END IF;
              made := made + 1; new_batch := gen_random_uuid(); new_set := gen_random_uuid();
              INSERT INTO batches SELECT (jsonb_populate_record(b, jsonb_build_object('id', new_batch, 'code', 'XX-' || made))).* FROM batches b WHERE id = source.batch;
              INSERT INTO tray_sets SELECT (jsonb_populate_record(t, jsonb_build_object('id', new_set, 'code', 'XS-' || made))).* FROM tray_sets t WHERE id = source.tray_set;
              INSERT INTO tray_shares SELECT (jsonb_populate_record(t, jsonb_build_object('tray_set_id', new_set, 'batch_id', new_batch))).* FROM tray_shares t WHERE batch_id = source.batch AND tray_set_id = source.tray_set;
              INSERT INTO standings SELECT (jsonb_populate_record(p, jsonb_build_object('id', gen_random_uuid(), 'tray_set_id', new_set, 'spaces', NULL))).* FROM standings p WHERE tray_set_id = source.tray_set;
              INSERT INTO ledger SELECT (jsonb_populate_record(l, jsonb_build_object('id', gen_random_uuid(), 'batch_id', new_batch, 'tray_set_id', new_set))).* FROM ledger l WHERE batch_id = source.batch;
              INSERT INTO tasks (id, site_id, kind, batch_id, occurrence, due_on, why, state, done_on, done_by)
                SELECT gen_random_uuid(), site_id, kind, new_batch, occurrence, due_on, why, state, done_on, done_by FROM tasks WHERE batch_id = source.batch;
            END LOOP;
          END LOOP;
        END $$
        """;

    private int _taps;

    [Fact]
    public async Task WholeRound_Of120Tasks_TakesAtMost12TapsInTen()
    {
        await app.SqlAsync<int>(Lengthen);
        await using var visit = await app.SignInAsAsync("staff", 820, 1180);
        var round = await RoundPage.OpenAsync(visit);
        var tasks = await round.Page.Locator(".tick-card.open").CountAsync();
        Assert.InRange(tasks, Tasks, Tasks + 6);
        var before = await ReportedAsync();
        var cards = await round.Page.Locator(".stop > .tick-group.open, .stop > .tick-card.open").EvaluateAllAsync<string[]>(
            "cards => cards.map(card => card.dataset.task ? `[data-task=\"${card.dataset.task}\"]` : `.tick-group[data-name=\"${card.dataset.name}\"]`)");
        var counts = 0;
        for (var number = 0; number < cards.Length; number++)
        {
            var card = round.Page.Locator(cards[number]);
            if (await card.GetAttributeAsync("data-kind") == "EmergenceCheck")
            {
                counts++;
                await CountAsync(round, card);
            }
            else
            {
                await TapAsync(RoundPage.Box(card));
            }

            if (number == cards.Length / 2)
            {
                await visit.PictureAsync("rounds-120-half");
            }
        }

        await Expect(round.Outbox).Not.ToHaveTextAsync(new Regex("not sent"), new() { Timeout = 30_000 });
        var refused = await round.Page.Locator(".refused").AllInnerTextsAsync();
        Assert.True(refused.Count == 0, string.Join('\n', refused));
        await round.SentAsync();
        await Expect(round.Page.Locator(".tick-card.open")).ToHaveCountAsync(0);
        await Expect(round.Page.Locator("#attention")).ToBeHiddenAsync();
        await visit.PictureAsync("rounds-120-after");
        Assert.Equal(before + tasks, await ReportedAsync());
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tasks} tasks, {counts} of them with a count, {cards.Length} cards, {_taps} taps: {(double)_taps / tasks:0.00} a task"));
        Assert.True(counts >= 12, $"only {counts} counts: too easy a round");
        Assert.True(_taps <= MostTapsATask * tasks, $"{_taps} taps for {tasks} tasks");
    }

    /// <summary>23 cells up in one tray.</summary>
    private async Task CountAsync(RoundPage round, ILocator card)
    {
        await TapAsync(RoundPage.Press(card, "Count"));
        if (!await card.GetByLabel("How many").EvaluateAsync<bool>("field => field === document.activeElement"))
        {
            await TapAsync(card.GetByLabel("How many"));
        }

        foreach (var digit in new[] { "2", "3" })
        {
            _taps++;
            await round.Page.Keyboard.PressAsync(digit);
        }

        await TapAsync(RoundPage.Press(card, "Save the count"));
    }

    private async Task TapAsync(ILocator target)
    {
        _taps++;
        await target.ClickAsync();
    }

    /// <summary>Tasks reported as done.</summary>
    private Task<long> ReportedAsync() => app.SqlAsync<long>("SELECT count(*) FROM ledger WHERE kind = 'Done' AND sent IS NOT NULL");
}
