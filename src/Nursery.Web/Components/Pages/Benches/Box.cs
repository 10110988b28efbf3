namespace Nursery.Web.Components.Pages.Benches;

/// <summary>An upright rectangle in drawing units, y downwards.</summary>
public readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    public double CenterX => X + (Width / 2);

    public double CenterY => Y + (Height / 2);

    public static Box Around(double centerX, double centerY, double width, double height) =>
        new(centerX - (width / 2), centerY - (height / 2), width, height);

    public bool Overlaps(Box other) =>
        X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;

    public bool Contains(Box other) =>
        X <= other.X && Y <= other.Y && other.Right <= Right && other.Bottom <= Bottom;
}
