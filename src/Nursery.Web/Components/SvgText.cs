using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Nursery.Web.Components;

/// <summary>Words on a drawing. Written here, as Razor keeps the name of the element for itself.</summary>
public sealed class SvgText : ComponentBase
{
    /// <summary>Where the words begin, have their middle or end: <see cref="Anchor"/> says which.</summary>
    [Parameter, EditorRequired]
    public double X { get; set; }

    /// <summary>Middle of the line.</summary>
    [Parameter, EditorRequired]
    public double Y { get; set; }

    [Parameter, EditorRequired]
    public string Words { get; set; } = "";

    /// <summary>start, middle or end.</summary>
    [Parameter]
    public string Anchor { get; set; } = "start";

    /// <summary>Height of the letters in the drawing's own units; null leaves it to the style sheet.</summary>
    [Parameter]
    public int? Size { get; set; }

    [Parameter]
    public string? Class { get; set; }

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", X.ToString("0.#", CultureInfo.InvariantCulture));
        builder.AddAttribute(2, "y", Y.ToString("0.#", CultureInfo.InvariantCulture));
        builder.AddAttribute(3, "font-size", Size);
        builder.AddAttribute(4, "text-anchor", Anchor);
        builder.AddAttribute(5, "dominant-baseline", "central");
        builder.AddAttribute(6, "fill", "var(--ink)");
        builder.AddAttribute(7, "class", Class);
        builder.AddContent(8, Words);
        builder.CloseElement();
    }
}
