using MudBlazor;

namespace Nursery.Web.Look;

/// <summary>The tokens as the component library's theme: flat, square-ish, no shadows.</summary>
public static class NurseryTheme
{
    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Primary = Tokens.Leaf,
            PrimaryContrastText = Tokens.Card,
            Secondary = Tokens.Slate,
            SecondaryContrastText = Tokens.OnSlate,
            Tertiary = Tokens.Clay,
            Error = Tokens.Madder,
            Warning = Tokens.Clay,
            Success = Tokens.LeafDeep,
            Info = Tokens.Slate,
            Background = Tokens.Paper,
            Surface = Tokens.Card,
            AppbarBackground = Tokens.Slate,
            AppbarText = Tokens.OnSlate,
            TextPrimary = Tokens.Ink,
            TextSecondary = Tokens.Soft,
            ActionDefault = Tokens.Ink,
            LinesDefault = Tokens.Rule,
            LinesInputs = Tokens.RuleStrong,
            TableLines = Tokens.Rule,
            Divider = Tokens.Rule,
        },
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "4px" },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = ["Atkinson Hyperlegible Next", "system-ui", "sans-serif"], FontSize = "1rem" },
            H1 = new H1Typography { FontFamily = ["Bitter", "Georgia", "serif"], FontSize = "1.6rem", FontWeight = "600" },
            H2 = new H2Typography { FontFamily = ["Bitter", "Georgia", "serif"], FontSize = "1.25rem", FontWeight = "600" },
            Button = new ButtonTypography { TextTransform = "none", FontSize = "1rem", FontWeight = "600" },
        },
        Shadows = new Shadow { Elevation = [.. Enumerable.Repeat("none", 26)] },
    };
}
