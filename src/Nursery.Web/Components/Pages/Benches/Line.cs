namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A straight leader from a label to what it names.</summary>
public readonly record struct Line(double X1, double Y1, double X2, double Y2)
{
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
