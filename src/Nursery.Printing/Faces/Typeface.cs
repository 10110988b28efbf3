using System.Globalization;
using System.Text;
using Nursery.Printing.Drawing;

namespace Nursery.Printing.Faces;

/// <summary>A face with its two files: says which file draws which part of a text.</summary>
internal sealed class Typeface(FontFile latin, FontFile extended)
{
    private static readonly Dictionary<Face, Typeface> _all = new()
    {
        [Face.Heading] = Of("bitter-600"),
        [Face.Text] = Of("next-400"),
        [Face.TextBold] = Of("next-700"),
        [Face.Code] = Of("mono-400"),
        [Face.CodeBold] = Of("mono-700"),
    };

    public static IEnumerable<FontFile> Files => _all.Values.SelectMany(face => face.Both);

    private IEnumerable<FontFile> Both => [latin, extended];

    public static Typeface For(Face face) => _all[face];

    /// <summary>Cuts a text into runs of one file each. Nothing is lost silently: what no file holds becomes its plain letter, or "?".</summary>
    public IReadOnlyList<(string File, string Text)> Runs(string text)
    {
        var runs = new List<(string File, string Text)>();
        foreach (var character in Drawable(text))
        {
            var file = latin.Holds(character) ? latin.Name : extended.Name;
            if (runs.Count > 0 && runs[^1].File == file)
                runs[^1] = (file, runs[^1].Text + character);
            else
                runs.Add((file, character.ToString()));
        }

        return runs;
    }

    /// <summary>The same text in characters this face can draw.</summary>
    public string Drawable(string text)
    {
        var drawn = new StringBuilder(text.Length);
        foreach (var rune in text.Normalize(NormalizationForm.FormC).EnumerateRunes())
        {
            if (rune.IsBmp && Holds((char)rune.Value))
                drawn.Append((char)rune.Value);
            else if (Rune.IsWhiteSpace(rune) || Rune.IsControl(rune))
                drawn.Append(' ');
            else
                drawn.Append(Plain(rune));
        }

        return drawn.ToString();
    }

    private string Plain(Rune rune)
    {
        if (rune.Value is 'µ' or 'μ')
            return "u";
        if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.DashPunctuation)
            return "-";
        if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.Format or UnicodeCategory.NonSpacingMark)
            return "";
        var parts = rune.ToString().Normalize(NormalizationForm.FormKD)
            .Where(c => Holds(c) && char.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark).ToArray();
        return parts.Length > 0 ? new string(parts) : "?";
    }

    private bool Holds(char character) => latin.Holds(character) || extended.Holds(character);

    private static Typeface Of(string name) => new(FontFile.Read(name + "-latin"), FontFile.Read(name + "-latin-ext"));
}
