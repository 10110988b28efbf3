using System.Globalization;
using Nursery.Application.Reservations;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches.Moving;

/// <summary>What a move would do, said before it is done.</summary>
public sealed record MoveAnswer(bool Fits, string Words)
{
    /// <summary>Asks without storing anything.</summary>
    public static async Task<MoveAnswer> OfAsync(Func<Task<MovedReservation>> trial, Units units)
    {
        try
        {
            return Of(await trial());
        }
        catch (Refusal refusal)
        {
            return new MoveAnswer(false, RefusalWords.Of(refusal, units));
        }
    }

    private static MoveAnswer Of(MovedReservation moved) => new(true, $"Fits: {Place(moved)}, {MapText.Day(moved.From)} to {MapText.Day(moved.To)}.");

    public static string Place(MovedReservation moved) => moved.Spaces == 1
        ? string.Create(CultureInfo.InvariantCulture, $"bench {moved.BenchCode}, space {moved.FirstSpace}")
        : string.Create(CultureInfo.InvariantCulture, $"bench {moved.BenchCode}, spaces {moved.FirstSpace}–{moved.FirstSpace + moved.Spaces - 1}");
}
