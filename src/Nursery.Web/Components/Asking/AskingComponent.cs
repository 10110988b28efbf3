using Microsoft.AspNetCore.Components;
using Nursery.Application.Access;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Web.Access;

namespace Nursery.Web.Components.Asking;

/// <summary>A page or panel that asks use cases in the name of whoever is signed in, one thing at a time, and turns a
/// refusal into a sentence to show.</summary>
public abstract class AskingComponent : ComponentBase, IDisposable
{
    private readonly CancellationTokenSource _gone = new();

    [Inject]
    private CurrentActor CurrentActor { get; set; } = default!;

    [Inject]
    private ShowSite ShowSite { get; set; } = default!;

    [Inject]
    private ILoggerFactory Logs { get; set; } = default!;

    [Inject]
    private TimeProvider Time { get; set; } = default!;

    /// <summary>Null until the first question was asked.</summary>
    protected SiteInfo? Site { get; private set; }

    protected Problem? Problem { get; set; }

    protected bool Busy { get; private set; }

    /// <returns>False when it was refused or failed, and <see cref="Problem"/> says why; or when another question is not answered yet.</returns>
    protected async Task<bool> AskAsync(Func<Actor, Task> ask)
    {
        if (Busy)
        {
            return false;
        }

        Busy = true;
        Problem = null;
        try
        {
            return await TryAsync(ask);
        }
        finally
        {
            Busy = false;
        }
    }

    /// <summary>Asks again in the background: never in the way of what someone asks, and what was refused stays said. When it fails,
    /// the page says that what it shows may be old, until an answer comes again.</summary>
    protected async Task<bool> LookAsync(Func<Actor, Task> look)
    {
        try
        {
            var actor = await CurrentActor.GetAsync();
            Site ??= await ShowSite.HandleAsync(actor);
            await look(actor);
            Problem = Problem == Problem.Unanswered ? null : Problem;
            return true;
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            if (Problem is null)
            {
                Logs.CreateLogger(GetType()).LogError(failure, "{Page} could not look again", GetType().Name);
                Problem = Problem.Unanswered;
            }

            return false;
        }
    }

    /// <summary>Does something every so often, by the clock of the product, until the page is left: for OnAfterRenderAsync of the first
    /// rendering, whose task Blazor awaits, so that no fault gets lost.</summary>
    protected async Task FollowAsync(TimeSpan every, Func<Task> look)
    {
        var gone = _gone.Token;
        using var timer = new PeriodicTimer(every, Time);
        try
        {
            while (await timer.WaitForNextTickAsync(gone))
            {
                await InvokeAsync(look);
            }
        }
        catch (OperationCanceledException)
        {
            // The page is left.
        }
    }

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    protected virtual void Dispose(bool disposing)
    {
        if (disposing)
        {
            _gone.Cancel();
            _gone.Dispose();
        }
    }

    private async Task<bool> TryAsync(Func<Actor, Task> ask)
    {
        try
        {
            var actor = await CurrentActor.GetAsync();
            Site ??= await ShowSite.HandleAsync(actor);
            await ask(actor);
            return true;
        }
        catch (Refusal refusal)
        {
            Problem = Problem.Of(refusal, Site?.Units ?? Units.Metric);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            // A page that ends here would take the circuit and everything typed on it along.
            Logs.CreateLogger(GetType()).LogError(failure, "{Page} could not be answered", GetType().Name);
            Problem = Problem.Unexpected;
        }

        return false;
    }
}
