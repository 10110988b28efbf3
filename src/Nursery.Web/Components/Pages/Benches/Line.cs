namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A straight leader from a label to what it names.</summary>
public readonly record struct Line(double X1, double Y1, double X2, double Y2)
{
    /// <summary>The box it is the diagonal of.</summary>
    public Box Around => new(Math.Min(X1, X2), Math.Min(Y1, Y2), Math.Abs(X2 - X1), Math.Abs(Y2 - Y1));

    /// <summary>Whether it passes through a box: clipped against the four sides (Liang–Barsky, from memory).</summary>
    public bool Crosses(Box box)
    {
        double enter = 0, leave = 1;
        double dx = X2 - X1, dy = Y2 - Y1;
        return Clip(-dx, X1 - box.X, ref enter, ref leave)
            && Clip(dx, box.Right - X1, ref enter, ref leave)
            && Clip(-dy, Y1 - box.Y, ref enter, ref leave)
            && Clip(dy, box.Bottom - Y1, ref enter, ref leave)
            && enter < leave;
    }

    /// <summary>Whether two lines cross: the ends of each lie on different sides of the other.</summary>
    public bool Crosses(Line other) =>
        Side(other.X1, other.Y1) * Side(other.X2, other.Y2) < 0 && other.Side(X1, Y1) * other.Side(X2, Y2) < 0;

    private double Side(double x, double y) => ((X2 - X1) * (y - Y1)) - ((Y2 - Y1) * (x - X1));

    private static bool Clip(double step, double room, ref double enter, ref double leave)
    {
        if (step == 0)
        {
            return room > 0;
        }

        var at = room / step;
        if (step < 0)
        {
            enter = Math.Max(enter, at);
        }
        else
        {
            leave = Math.Min(leave, at);
        }

        return enter < leave;
    }
}
