using System.Globalization;
using System.Text.Json.Serialization;

namespace Nursery.Domain;

/// <summary>The id of a <typeparamref name="T"/>: a UUIDv7 (RFC 9562), so ids sort by the time they were made
/// and a bench id can never be handed over where a batch id is meant.</summary>
[JsonConverter(typeof(IdJsonConverterFactory))]
public readonly record struct Id<T>(Guid Value) : IComparable<Id<T>>
{
    public int CompareTo(Id<T> other) => Value.CompareTo(other.Value);

    public static bool operator <(Id<T> left, Id<T> right) => left.CompareTo(right) < 0;

    public static bool operator >(Id<T> left, Id<T> right) => left.CompareTo(right) > 0;

    public static bool operator <=(Id<T> left, Id<T> right) => left.CompareTo(right) <= 0;

    public static bool operator >=(Id<T> left, Id<T> right) => left.CompareTo(right) >= 0;

    public override string ToString() => Value.ToString("D", CultureInfo.InvariantCulture);
}
