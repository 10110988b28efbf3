using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Nursery.Web.Components.Pages.Germination;

/// <summary>Words on the drawing of curves. Written here, as Razor keeps the name of the element for itself.</summary>
public sealed class CurveText : ComponentBase
{
    [Parameter, EditorRequired]
    public double X { get; set; }

    /// <summary>Middle of the line.</summary>
    [Parameter, EditorRequired]
    public double Y { get; set; }

    [Parameter, EditorRequired]
    public string Words { get; set; } = "";

    [Parameter]
    public string Anchor { get; set; } = "start";

    [Parameter]
    public string? Class { get; set; }

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", X.ToString("0.#", CultureInfo.InvariantCulture));
        builder.AddAttribute(2, "y", Y.ToString("0.#", CultureInfo.InvariantCulture));
        builder.AddAttribute(3, "text-anchor", Anchor);
        builder.AddAttribute(4, "class", Class);
        builder.AddContent(5, Words);
        builder.CloseElement();
    }
}
