using System.Globalization;
using System.Text;

namespace Nursery.Web.Look;

/// <summary>The colors of paper seed tags on a slate desk: one place for the style sheets and the component theme.</summary>
public static class Tokens
{
    public const string Paper = "#F5EFE0";
    public const string Card = "#FFFCF3";
    public const string Ink = "#20251D";
    public const string Soft = "#4E5448";
    public const string Rule = "#D8CDB4";
    public const string RuleStrong = "#8A8068";
    public const string Leaf = "#2E6A39";
    public const string LeafDeep = "#1D4626";
    public const string LeafWash = "#E8EDDB";
    public const string Clay = "#A94A22";
    public const string Wash = "#F4DFCB";
    public const string Slate = "#31454E";
    public const string OnSlate = "#F5EFE0";
    public const string Madder = "#9C2038";
    public const string MadderWash = "#F7E3E3";
    public const string Straw = "#B9851B";

    public const string Text = "\"Atkinson Hyperlegible Next\", system-ui, sans-serif";
    public const string Headings = "Bitter, Georgia, serif";
    public const string Codes = "\"Atkinson Hyperlegible Mono\", ui-monospace, monospace";

    private static readonly (string Name, string Value)[] All =
    [
        ("paper", Paper), ("card", Card), ("ink", Ink), ("soft", Soft), ("rule", Rule), ("rule-strong", RuleStrong),
        ("leaf", Leaf), ("leaf-deep", LeafDeep), ("leaf-wash", LeafWash), ("clay", Clay), ("wash", Wash),
        ("slate", Slate), ("on-slate", OnSlate), ("madder", Madder), ("madder-wash", MadderWash), ("straw", Straw),
        ("text", Text), ("headings", Headings), ("codes", Codes),
    ];

    /// <summary>As CSS custom properties (--paper …).</summary>
    public static string AsCss()
    {
        var css = new StringBuilder(":root {\n");
        foreach (var (name, value) in All)
        {
            css.Append(CultureInfo.InvariantCulture, $"  --{name}: {value};\n");
        }

        return css.Append("}\n").ToString();
    }
}
