namespace Nursery.Domain.Runs;

/// <summary>Long work that is started on a page or by a program and goes on without it.</summary>
public enum RunKind
{
    /// <summary>Every planned batch without a place gets one, in order of sowing day.</summary>
    FirstFit,

    /// <summary>More tray tags than one answer gives.</summary>
    TrayTags,

    /// <summary>A plan of the season is computed; accepting it is another matter.</summary>
    Plan,
}
