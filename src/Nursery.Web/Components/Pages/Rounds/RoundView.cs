using Nursery.Application.Rounds;
using Nursery.Domain.Tasks;

namespace Nursery.Web.Components.Pages.Rounds;

/// <summary>Tasks of one kind on one bench that want the same from everybody: one tap does them all.</summary>
internal sealed record RoundCard(IReadOnlyList<TaskItem> Tasks)
{
    public bool IsGroup => Tasks.Count > 1;
}

/// <summary>A stop on the walk; <paramref name="Bench"/> is null for a whole house, and for trays that have no bench yet.</summary>
internal sealed record RoundStop(RoundBench? Bench, IReadOnlyList<RoundCard> Cards)
{
    public string Name => Bench?.Name ?? (Cards[0].Tasks[0].House is null ? "No bench yet" : "The whole house");

    public IEnumerable<string> Crops => Cards.SelectMany(card => card.Tasks).Select(task => task.CropName?.ToLowerInvariant())
        .OfType<string>().Distinct().Order(StringComparer.Ordinal);
}

/// <summary>One house of the walk, or the trays without a place.</summary>
internal sealed record RoundHouse(string Name, IReadOnlyList<RoundStop> Stops)
{
    public IEnumerable<TaskItem> Tasks => Stops.SelectMany(stop => stop.Cards).SelectMany(card => card.Tasks);
}

/// <summary>Lays the day's tasks out along the walk. The tasks come in walking order, and keep it.</summary>
internal static class RoundView
{
    public static IReadOnlyList<RoundHouse> Of(Round round)
    {
        var benches = round.Benches.ToDictionary(bench => bench.Code);
        return
        [
            .. round.Tasks.GroupBy(task => task.House).Select(house => new RoundHouse(
                house.Key is null ? "Not placed" : round.Benches.First(bench => bench.House == house.Key).HouseName,
                [
                    .. house.GroupBy(task => task.BenchCode).Select(stop => new RoundStop(
                        stop.Key is null ? null : benches[stop.Key], [.. Cards(stop)])),
                ])),
        ];
    }

    /// <summary>What is done to all trays of a bench in one go.</summary>
    private static bool IsDoneTogether(TaskKind kind) => kind is TaskKind.Water or TaskKind.FirstWatering or TaskKind.Feed;

    private static IEnumerable<RoundCard> Cards(IEnumerable<TaskItem> tasks) => tasks.GroupBy(task => task.Kind)
        .SelectMany(kind => IsDoneTogether(kind.Key)
            ? [new RoundCard([.. kind])]
            : kind.Select(task => new RoundCard([task])));
}
