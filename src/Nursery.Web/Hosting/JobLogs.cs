using Hangfire.AspNetCore;
using Hangfire.Logging;

namespace Nursery.Web.Hosting;

/// <summary>Where Hangfire writes what it does. It keeps this in a static: of two hosts in one process the later one's, also when that host is
/// gone. Then nothing is written, where Hangfire's own would throw and end the worker that wanted to say something.</summary>
internal sealed class JobLogs(ILoggerFactory factory) : ILogProvider
{
    private static readonly Silence Nothing = new();
    private readonly AspNetCoreLogProvider _logs = new(factory);

    public ILog GetLogger(string name)
    {
        try
        {
            return _logs.GetLogger(name);
        }
        catch (ObjectDisposedException)
        {
            return Nothing;
        }
    }

    private sealed class Silence : ILog
    {
        public bool Log(Hangfire.Logging.LogLevel logLevel, Func<string> messageFunc, Exception? exception = null) => false;
    }
}
