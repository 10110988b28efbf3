namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Gives each label the first of its choices that touches nothing placed before: labels never overlap,
/// and no leader runs through a label. First come, first served: ask for the important ones first.</summary>
public sealed class LabelPlacer(Box bounds)
{
    private const double Air = 1;
    private readonly List<Box> _taken = [];
    private readonly List<Line> _leaders = [];

    public void Block(Box box) => _taken.Add(box);

    /// <summary>Null when no choice is free; the thing is then named by its title and in the panel only.</summary>
    public LabelChoice? Place(IEnumerable<LabelChoice> choices)
    {
        foreach (var choice in choices)
        {
            if (IsFree(choice))
            {
                _taken.Add(choice.Box);
                if (choice.Leader is { } leader)
                {
                    _leaders.Add(leader);
                }

                return choice;
            }
        }

        return null;
    }

    private bool IsFree(LabelChoice choice)
    {
        var box = choice.Box;
        var aired = new Box(box.X - Air, box.Y - Air, box.Width + (2 * Air), box.Height + (2 * Air));
        return bounds.Contains(box)
            && !_taken.Any(aired.Overlaps)
            && !_leaders.Any(line => line.Crosses(aired))
            && (choice.Leader is not { } leader || !_taken.Any(leader.Crosses));
    }
}
