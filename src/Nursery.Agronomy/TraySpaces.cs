namespace Nursery.Agronomy;

/// <summary>What a bench holds: tray spaces, and how many of them stand side by side across its width.</summary>
public readonly record struct TraySpaceCount(int Spaces, int Rows);

/// <summary>How many trays of one footprint a bench takes: the best of both ways to lay them, with what is left over at one end
/// or side laid the other way (one guillotine cut).</summary>
/// <param name="TrayLengthCm">Long side of a tray.</param>
/// <param name="TrayWidthCm">Short side.</param>
public sealed record TraySpaces(decimal TrayLengthCm, decimal TrayWidthCm)
{
    private const decimal CmPerInch = 2.54m;

    /// <summary>The 1020 tray, 10.9 × 21.4 in outside (from memory; makers differ by a few millimeters).</summary>
    public static TraySpaces Standard { get; } = new(21.4m * CmPerInch, 10.9m * CmPerInch);

    /// <summary>Kept free between trays that stand side by side, cm.</summary>
    public decimal GapCm { get; init; }

    /// <summary>How far an arm reaches from one side, cm; null does not ask.</summary>
    public decimal? ReachCm { get; init; }

    /// <summary>Sides of the bench people can stand at, 1 or 2.</summary>
    public int OpenSides { get; init; } = 2;

    /// <summary>For heat mats, whose trays all lie one way.</summary>
    public bool OneWay { get; init; }

    /// <summary>What a bench of this length and width takes; 0 spaces when not even one tray lies on it.</summary>
    public TraySpaceCount On(decimal lengthCm, decimal widthCm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(lengthCm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(widthCm);
        var reached = ReachCm is { } reach ? Math.Min(widthCm, reach * OpenSides) : widthCm;
        var across = Grid(lengthCm, reached, TrayWidthCm, TrayLengthCm);
        var along = Grid(lengthCm, reached, TrayLengthCm, TrayWidthCm);
        var best = along.Spaces > across.Spaces ? along : across;
        return OneWay ? best : Cuts(lengthCm, reached, across, along).Prepend(best).MaxBy(count => count.Spaces);
    }

    private IEnumerable<TraySpaceCount> Cuts(decimal length, decimal width, TraySpaceCount across, TraySpaceCount along)
    {
        // Across the bench: columns one way, the rest of the length the other way.
        for (var columns = 1; columns <= Fit(length, TrayWidthCm); columns++)
        {
            var rest = Grid(length - (columns * (TrayWidthCm + GapCm)), width, TrayLengthCm, TrayWidthCm);
            yield return new TraySpaceCount((columns * across.Rows) + rest.Spaces, Math.Max(across.Rows, rest.Rows));
        }

        // Along the bench: rows one way, the rest of the width the other way.
        for (var rows = 1; rows <= Fit(width, TrayLengthCm); rows++)
        {
            var rest = Grid(length, width - (rows * (TrayLengthCm + GapCm)), TrayLengthCm, TrayWidthCm);
            yield return new TraySpaceCount((rows * Fit(length, TrayWidthCm)) + rest.Spaces, rows + rest.Rows);
        }
    }

    private TraySpaceCount Grid(decimal length, decimal width, decimal trayAlong, decimal trayAcross)
    {
        var rows = Fit(width, trayAcross);
        return new TraySpaceCount(Fit(length, trayAlong) * rows, rows);
    }

    private int Fit(decimal room, decimal tray) => room < tray ? 0 : (int)((room + GapCm) / (tray + GapCm));
}
