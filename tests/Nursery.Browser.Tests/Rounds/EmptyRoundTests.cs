using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>A day without tasks, and a day with very many.</summary>
public sealed class EmptyRoundTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const int Many = 500;

    /// <summary>Copies of sown batches with a task each, standing where the original stands.</summary>
    private const string Multiply =
        """
        DO $$
        DECLARE source record; new_batch uuid; new_set uuid;
        BEGIN
          FOR i IN 1..500 LOOP
            SELECT t.id AS task, t.batch_id AS batch, s.tray_set_id AS tray_set, p.id AS place INTO source
            FROM tasks t JOIN tray_shares s ON s.batch_id = t.batch_id JOIN standings p ON p.tray_set_id = s.tray_set_id
            WHERE t.kind = (ARRAY['Water', 'EmergenceCheck', 'Thin'])[1 + i % 3] ORDER BY t.id, p.id LIMIT 1 OFFSET 0;
            new_batch := gen_random_uuid(); new_set := gen_random_uuid();
            INSERT INTO batches SELECT (jsonb_populate_record(b, jsonb_build_object('id', new_batch, 'code', 'XX-' || i))).* FROM batches b WHERE id = source.batch;
            INSERT INTO tray_sets SELECT (jsonb_populate_record(t, jsonb_build_object('id', new_set, 'code', 'XS-' || i))).* FROM tray_sets t WHERE id = source.tray_set;
            INSERT INTO tray_shares SELECT (jsonb_populate_record(t, jsonb_build_object('tray_set_id', new_set, 'batch_id', new_batch))).* FROM tray_shares t WHERE tray_set_id = source.tray_set LIMIT 1;
            INSERT INTO standings SELECT (jsonb_populate_record(p, jsonb_build_object('id', gen_random_uuid(), 'tray_set_id', new_set, 'spaces', NULL))).* FROM standings p WHERE id = source.place;
            INSERT INTO tasks (id, site_id, kind, batch_id, occurrence, due_on, why, state)
              SELECT gen_random_uuid(), site_id, kind, new_batch, occurrence, CURRENT_DATE - 2, why, 'Open' FROM tasks t WHERE id = source.task;
          END LOOP;
        END $$
        """;

    [Fact]
    public async Task Round_WithNothingDue_SaysSo_AndWith500TasksStillTakesATap()
    {
        await app.SqlAsync<int>("UPDATE tasks SET state = 'Withdrawn'");
        await using var visit = await app.SignInAsAsync("staff", 820, 1180);
        var round = await RoundPage.OpenAsync(visit);
        await Expect(round.Page.GetByText("Nothing to do today")).ToBeVisibleAsync();
        await visit.PictureAsync("rounds-empty");

        await app.SqlAsync<int>(Multiply);
        await round.Page.ReloadAsync();

        Assert.Equal(Many, await round.Page.Locator(".tick-card").CountAsync());
        await visit.PictureAsync("rounds-500");
        var last = round.Page.Locator(".stop > .tick-card.open").Last;
        var task = await last.GetAttributeAsync("data-task");
        await RoundPage.Box(last).ClickAsync();
        await RoundPage.SaysAsync(round.Card(task!), "Done by you");
        await round.SentAsync();
    }
}
