using Nursery.Agronomy;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

/// <summary>A beta distribution: mean a ÷ (a + b).</summary>
internal sealed record BetaBody(double A, double B)
{
    public static Func<BetaShape> Read(JsonFields fields)
    {
        var (a, b) = (fields.Number("a", Ranges.Beta), fields.Number("b", Ranges.Beta));
        return () => new BetaShape(a, b);
    }

    public static Func<BetaShape>? ReadOptional(JsonFields? fields) => fields is null ? null : Read(fields);
}
