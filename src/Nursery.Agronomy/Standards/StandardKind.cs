namespace Nursery.Agronomy.Standards;

/// <summary>The kind of the published standard a crop belongs to. Standards name kinds in their own way ('Chard, Swiss'), crops bear the
/// names people of the site gave them; those of the trade that are not the printed name are listed here (common practice, no source).</summary>
public static class StandardKind
{
    private static readonly Dictionary<string, string> OtherNames = new(StringComparer.OrdinalIgnoreCase)
    {
        ["summer squash"] = "Squash",
        ["winter squash"] = "Squash",
        ["zucchini"] = "Squash",
        ["muskmelon"] = "Melon",
        ["cantaloupe"] = "Melon",
        ["honeydew"] = "Melon",
        ["sweet pepper"] = "Pepper",
        ["hot pepper"] = "Pepper",
        ["chili pepper"] = "Pepper",
        ["cherry tomato"] = "Tomato",
        ["ground cherry"] = "Tomato, husk",
        ["tomatillo"] = "Tomato, husk",
        ["chard"] = "Chard, Swiss",
        ["pak choi"] = "Pak-choi",
        ["bok choy"] = "Pak-choi",
        ["napa cabbage"] = "Chinese cabbage",
        ["red cabbage"] = "Cabbage",
        ["bunching onion"] = "Onion, Welsh",
        ["snap bean"] = "Bean, garden",
        ["sweetcorn"] = "Corn, sweet",
        ["collard"] = "Collards",
    };

    /// <summary>The standard of a crop by its name, whatever its case: the printed name ('Bean, lima'), its parts in the order people say
    /// them ('lima bean'), or a name of the trade for the same kind. Null when no published minimum is known for it.</summary>
    public static GerminationMinimum? Of(string cropName)
    {
        var name = cropName.Trim();
        return GerminationMinimum.Find(OtherNames.GetValueOrDefault(name, name))
            ?? GerminationMinimum.All.FirstOrDefault(standard => string.Equals(Said(standard.Kind), name, StringComparison.OrdinalIgnoreCase));
    }

    private static string Said(string printed) => printed.Split(", ") is [var head, var which] ? $"{which} {head}" : printed;
}
