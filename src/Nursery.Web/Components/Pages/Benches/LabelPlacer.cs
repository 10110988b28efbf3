namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Gives each label the first of its choices that touches nothing placed before: labels never overlap,
/// no leader runs through a label or another leader. First come, first served: ask for the important ones first.</summary>
public sealed class LabelPlacer(Box bounds)
{
    private const double Air = 1;

    // A full house asks some ten thousand times.
    private readonly NearGrid<Box> _taken = new(bounds);
    private readonly NearGrid<Line> _leaders = new(bounds);

    public void Block(Box box) => _taken.Add(box, box);

    /// <summary>Null when no choice is free; the thing is then named by its title and in the panel only.</summary>
    public LabelChoice? Place(IEnumerable<LabelChoice> choices)
    {
        foreach (var choice in choices)
        {
            if (IsFree(choice))
            {
                _taken.Add(choice.Box, choice.Box);
                if (choice.Leader is { } leader)
                {
                    _leaders.Add(leader.Around, leader);
                }

                return choice;
            }
        }

        return null;
    }

    private bool IsFree(LabelChoice choice)
    {
        var box = choice.Box;
        if (!bounds.Contains(box))
        {
            return false;
        }

        var aired = new Box(box.X - Air, box.Y - Air, box.Width + (2 * Air), box.Height + (2 * Air));
        if (_taken.Any(aired, aired, static (taken, box) => box.Overlaps(taken))
            || _leaders.Any(aired, aired, static (line, box) => line.Crosses(box)))
        {
            return false;
        }

        return choice.Leader is not { } leader
            || !(_taken.Any(leader.Around, leader, static (taken, line) => line.Crosses(taken))
                || _leaders.Any(leader.Around, leader, static (other, line) => line.Crosses(other)));
    }
}
