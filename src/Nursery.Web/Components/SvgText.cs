using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Nursery.Web.Components;

/// <summary>Words on a drawing, around a point. Written here, as Razor keeps the name of the element for itself.</summary>
public sealed class SvgText : ComponentBase
{
    [Parameter, EditorRequired]
    public decimal X { get; set; }

    [Parameter, EditorRequired]
    public decimal Y { get; set; }

    [Parameter, EditorRequired]
    public int Size { get; set; }

    [Parameter, EditorRequired]
    public string Words { get; set; } = "";

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", X.ToString(CultureInfo.InvariantCulture));
        builder.AddAttribute(2, "y", Y.ToString(CultureInfo.InvariantCulture));
        builder.AddAttribute(3, "font-size", Size);
        builder.AddAttribute(4, "text-anchor", "middle");
        builder.AddAttribute(5, "dominant-baseline", "central");
        builder.AddAttribute(6, "fill", "var(--ink)");
        builder.AddContent(7, Words);
        builder.CloseElement();
    }
}
