using Hangfire;
using Hangfire.Common;
using Hangfire.States;

namespace Nursery.Web.Tests.Pages;

/// <summary>Keeps what pages enqueue, so that a test says when a worker has time for it.</summary>
internal sealed class JobsAtOnce(IServiceProvider services) : IBackgroundJobClient
{
    private readonly List<Job> _waiting = [];

    public int Waiting => _waiting.Count;

    public string Create(Job job, IState state)
    {
        _waiting.Add(job);
        return _waiting.Count.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    public bool ChangeState(string jobId, IState state, string expectedState) => true;

    public async Task WorkAsync()
    {
        foreach (var job in _waiting)
        {
            await (Task)job.Method.Invoke(services.GetService(job.Type), [.. job.Args])!;
        }

        _waiting.Clear();
    }
}
