using System.Globalization;
using System.Text.Json;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Requests;

/// <summary>What a request brought into a computation, to be told back with it.</summary>
internal sealed class TakenInputs
{
    private const string Sent = "as sent";
    private const int MostShown = 15;

    private readonly List<HowInput> _all = [];

    public IReadOnlyList<HowInput> All => _all;

    public void Add(string name, string value, string unit) => _all.Add(new HowInput(name, value, unit, Sent));

    /// <summary>A short list of numbers in full, any other by its length.</summary>
    public void AddList(string name, JsonElement list)
    {
        var length = list.GetArrayLength();
        if (length is > 0 and <= MostShown && list.EnumerateArray().All(element => element.ValueKind == JsonValueKind.Number))
        {
            Add(name, string.Join(", ", list.EnumerateArray().Select(element => element.GetRawText())), "");
        }
        else
        {
            Add(name, length.ToString(CultureInfo.InvariantCulture), length == 1 ? "item" : "items");
        }
    }
}
