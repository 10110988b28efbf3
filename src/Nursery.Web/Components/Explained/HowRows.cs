using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using Microsoft.AspNetCore.Components;
using Nursery.Application.Computed;

namespace Nursery.Web.Components.Explained;

/// <summary>The rows of what went into a number, as one piece of text: a round has hundreds of these tables, and drawn element by
/// element they took longer than everything else on it.</summary>
internal static class HowRows
{
    /// <summary>Pages are UTF-8: only what means something to HTML is written in another way.</summary>
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(UnicodeRanges.All);

    public static MarkupString Of(IEnumerable<HowInput> inputs)
    {
        var rows = new StringBuilder();
        foreach (var input in inputs)
        {
            rows.Append("<tr><th scope=\"row\">").Append(Encoder.Encode(input.Name))
                .Append("</th><td class=\"number\">").Append(Encoder.Encode(input.Value)).Append(' ').Append(Encoder.Encode(input.Unit))
                .Append("</td><td>").Append(Encoder.Encode(input.From)).Append("</td></tr>");
        }

        return new MarkupString(rows.ToString());
    }
}
