using System.Buffers.Text;
using System.Globalization;
using System.Text;
using Nursery.Domain.Refusals;

namespace Nursery.Application;

/// <summary>Which page of a list.</summary>
/// <param name="Limit">1–1000.</param>
/// <param name="Cursor">What the page before gave as next; null for the first.</param>
public sealed record Paging(int Limit = 100, string? Cursor = null)
{
    public const int MaxLimit = 1000;

    public int Limit { get; init; } = Limit is (>= 1 and <= MaxLimit) or int.MaxValue
        ? Limit
        : throw new InvalidFields("limit", Limit.ToString(CultureInfo.InvariantCulture), $"1–{MaxLimit}");

    /// <summary>Everything, for screens.</summary>
    public static Paging All { get; } = new(int.MaxValue);

    /// <summary>Cuts a page out of a list that is whole and in a fixed order.</summary>
    public Page<T> Cut<T>(IReadOnlyList<T> all)
    {
        var start = Math.Min(Offset(), all.Count);
        var items = all.Skip(start).Take(Limit).ToList();
        var next = start + items.Count;
        return new Page<T>(items, next < all.Count ? Write(next.ToString(CultureInfo.InvariantCulture)) : null);
    }

    /// <summary>The id after which a page of a list sorted by id starts.</summary>
    public Guid? AfterId() => Cursor is null
        ? null
        : Guid.TryParse(Read(Cursor), out var id) ? id : throw Wrong();

    public static Page<T> ById<T>(IReadOnlyList<T> oneMore, int limit, Func<T, Guid> id) =>
        oneMore.Count <= limit
            ? new Page<T>(oneMore, null)
            : new Page<T>([.. oneMore.Take(limit)], Write(id(oneMore[limit - 1]).ToString()));

    private int Offset() => Cursor is null
        ? 0
        : int.TryParse(Read(Cursor), NumberStyles.None, CultureInfo.InvariantCulture, out var offset) ? offset : throw Wrong();

    private static string Write(string position) => Base64Url.EncodeToString(Encoding.UTF8.GetBytes(position));

    private static string Read(string cursor) =>
        Base64Url.IsValid(cursor) ? Encoding.UTF8.GetString(Base64Url.DecodeFromChars(cursor)) : "";

    private InvalidFields Wrong() => new("cursor", Cursor, "the 'next' of an earlier page of this list");
}
