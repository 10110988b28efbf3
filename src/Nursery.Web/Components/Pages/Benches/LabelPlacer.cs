namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Gives each label the first of its choices that touches nothing placed before: labels never overlap,
/// no leader runs through a label or another leader. First come, first served: ask for the important ones first.</summary>
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

    // Asked some ten thousand times for a full house: plain loops, the cheap refusals first.
    private bool IsFree(LabelChoice choice)
    {
        var box = choice.Box;
        if (!bounds.Contains(box))
        {
            return false;
        }

        var aired = new Box(box.X - Air, box.Y - Air, box.Width + (2 * Air), box.Height + (2 * Air));
        foreach (var taken in _taken)
        {
            if (aired.Overlaps(taken))
            {
                return false;
            }
        }

        foreach (var line in _leaders)
        {
            if (line.Crosses(aired) || choice.Leader?.Crosses(line) == true)
            {
                return false;
            }
        }

        if (choice.Leader is { } leader)
        {
            foreach (var taken in _taken)
            {
                if (leader.Crosses(taken))
                {
                    return false;
                }
            }
        }

        return true;
    }
}
