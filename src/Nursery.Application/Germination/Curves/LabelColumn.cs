namespace Nursery.Application.Germination.Curves;

/// <summary>Labels in a column beside the ends of lines: each as near to its line as the others let it, in the order of the lines.</summary>
public static class LabelColumn
{
    /// <summary>The middles of the labels.</summary>
    /// <param name="wanted">Where each would stand alone, in any order.</param>
    /// <param name="height">Of a label.</param>
    /// <param name="top">Upper end of the column.</param>
    /// <param name="bottom">Lower end; room for all of them.</param>
    public static IReadOnlyList<double> Spread(IReadOnlyList<double> wanted, double height, double top, double bottom)
    {
        var order = Enumerable.Range(0, wanted.Count).OrderBy(index => wanted[index]).ThenBy(index => index).ToList();
        var places = new double[wanted.Count];

        // Labels that touch become a block around the middle of what they want; blocks that touch become one.
        var blocks = new List<(double Middle, List<int> Labels)>();
        foreach (var index in order)
        {
            var block = (Middle: wanted[index], Labels: new List<int> { index });
            while (true)
            {
                block.Middle = Within(block.Labels.Average(label => wanted[label]), block.Labels.Count * height);
                if (blocks.Count == 0 || blocks[^1].Middle + (blocks[^1].Labels.Count * height / 2) <= block.Middle - (block.Labels.Count * height / 2) + 1e-9)
                {
                    break;
                }

                block.Labels.InsertRange(0, blocks[^1].Labels);
                blocks.RemoveAt(blocks.Count - 1);
            }

            blocks.Add(block);
        }

        foreach (var (middle, labels) in blocks)
        {
            for (var place = 0; place < labels.Count; place++)
            {
                places[labels[place]] = middle + ((place - ((labels.Count - 1) / 2.0)) * height);
            }
        }

        return places;

        double Within(double middle, double whole) => Math.Max(top + (whole / 2), Math.Min(bottom - (whole / 2), middle));
    }
}
