namespace Nursery.Application.Setup;

/// <summary>Whether the work at start (schema, demo data) is done.</summary>
public sealed class StartupState
{
    private volatile bool _ready;

    public bool IsReady => _ready;

    public void MarkReady() => _ready = true;
}
