namespace Nursery.Past;

/// <summary>The seeds of a batch, one by one: on which day each came up and on which it was gone.</summary>
internal sealed class Stand
{
    private const int Never = int.MaxValue;
    private readonly int[] _up;
    private readonly int[] _gone;
    private readonly (double Need, int Seed)[] _waiting;
    private readonly int _perTray;
    private readonly int _perCell;
    private double _progress;
    private int _next;

    /// <param name="trays">Trays, each with its own effect.</param>
    /// <param name="cells">Cells of a tray.</param>
    /// <param name="perCell">Seeds of a cell.</param>
    /// <param name="viable">Chance of a seed to come up at all, before the tray's effect.</param>
    /// <param name="curve">When those do.</param>
    /// <param name="random">Draws.</param>
    public Stand(int trays, int cells, int perCell, double viable, CurveTruth curve, Pcg32 random)
    {
        (_perTray, _perCell) = (cells * perCell, perCell);
        _up = new int[trays * _perTray];
        _gone = new int[_up.Length];
        Array.Fill(_up, Never);
        Array.Fill(_gone, Never);
        TrayEffects = [.. Enumerable.Range(0, trays).Select(_ => Math.Round(Math.Clamp(1 + (0.04 * random.Normal()), 0.85, 1.1), 4))];
        var waiting = new List<(double, int)>();
        for (var seed = 0; seed < _up.Length; seed++)
        {
            if (random.Chance(Math.Min(0.995, viable * TrayEffects[seed / _perTray])))
            {
                waiting.Add((SeedCurves.Need(curve, random), seed));
            }
        }

        _waiting = [.. waiting.Order()];
    }

    public IReadOnlyList<double> TrayEffects { get; }

    public int Seeds => _up.Length;

    public int Emerged => _next;

    /// <summary>A day's warmth, in days at the optimum; what is ripe by then is up the next morning.</summary>
    public void Warm(double rate, int nextDay)
    {
        _progress += rate;
        while (_next < _waiting.Length && _waiting[_next].Need <= _progress)
        {
            _up[_waiting[_next++].Seed] = nextDay;
        }
    }

    public double? MedianDay(int sowOn) => _next == 0 ? null : _up[_waiting[_next / 2].Seed] - sowOn;

    public int Seedlings(int day, int trays) => Alive(day, 0, trays * _perTray);

    public int Blanks(int day, int trays)
    {
        var blanks = 0;
        for (var first = 0; first < trays * _perTray; first += _perCell)
        {
            blanks += Alive(day, first, first + _perCell) == 0 ? 1 : 0;
        }

        return blanks;
    }

    /// <summary>All plants of a run of neighboring cells of a tray die; gives how many.</summary>
    public int Kill(int tray, int firstCell, int cells, int day)
    {
        var first = (tray * _perTray) + (firstCell * _perCell);
        var end = Math.Min((tray + 1) * _perTray, first + (cells * _perCell));
        var dead = Alive(day, first, end);
        for (var seed = first; seed < end; seed++)
        {
            _gone[seed] = Math.Min(_gone[seed], day);
        }

        return dead;
    }

    /// <summary>One plant stays in each cell; gives how many were taken out.</summary>
    public int Thin(int day)
    {
        var taken = 0;
        for (var first = 0; first < _up.Length; first += _perCell)
        {
            var kept = false;
            for (var seed = first; seed < first + _perCell; seed++)
            {
                var alive = _up[seed] <= day && _gone[seed] > day;
                if (alive && kept)
                {
                    _gone[seed] = day;
                    taken++;
                }

                kept |= alive;
            }
        }

        return taken;
    }

    private int Alive(int day, int first, int end)
    {
        var alive = 0;
        for (var seed = first; seed < end; seed++)
        {
            alive += _up[seed] <= day && _gone[seed] > day ? 1 : 0;
        }

        return alive;
    }
}
