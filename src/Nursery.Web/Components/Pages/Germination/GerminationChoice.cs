using NodaTime;
using NodaTime.Text;
using Nursery.Application.Germination;

namespace Nursery.Web.Components.Pages.Germination;

/// <summary>What someone chose to look at, as the fields have it.</summary>
/// <param name="To">The last day of sowing, itself included.</param>
/// <param name="Below">Percent.</param>
public sealed record GerminationChoice(
    GerminationKey By = GerminationKey.Crop,
    DateOnly? From = null,
    DateOnly? To = null,
    string Crop = "",
    string House = "",
    string Lot = "",
    decimal? Below = null,
    GerminationOrder Order = GerminationOrder.Name,
    bool Descending = false)
{
    public bool IsNarrowed => this with { By = default, Order = default, Descending = default } != new GerminationChoice();

    public GerminationRequest Request => new(
        By, Day(From), Day(To)?.PlusDays(1), Given(Crop), Given(House), Given(Lot), Below / 100, Order, Descending);

    /// <summary>The greatest first when a figure is chosen; the other way round when it is chosen again.</summary>
    public GerminationChoice SortedBy(GerminationOrder order) => this with
    {
        Order = order,
        Descending = order == Order ? !Descending : order != GerminationOrder.Name,
    };

    /// <summary>The same choice for the API: what pages show is what files hold.</summary>
    public string Address(string path, params (string Name, string? Value)[] more)
    {
        var request = Request;
        var values = new (string Name, string? Value)[]
        {
            ("by", Word(request.By)),
            ("from", Iso(request.From)),
            ("to", Iso(request.To)),
            ("crop", request.Crop),
            ("house", request.House),
            ("lot", request.Lot),
            ("below", request.Below?.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            ("order", request.Order == GerminationOrder.Name ? null : Word(request.Order)),
            ("descending", request.Descending ? "true" : null),
        }.Concat(more).Where(value => value.Value is not null);
        return $"/api/v1/{path}?{string.Join('&', values.Select(value => $"{value.Name}={Uri.EscapeDataString(value.Value!)}"))}";
    }

    private static string Word<T>(T value)
        where T : struct, Enum => System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    private static string? Iso(LocalDate? day) => day is { } known ? LocalDatePattern.Iso.Format(known) : null;

    private static LocalDate? Day(DateOnly? day) => day is { } known ? LocalDate.FromDateOnly(known) : null;

    private static string? Given(string text) => text.Length == 0 ? null : text;
}
