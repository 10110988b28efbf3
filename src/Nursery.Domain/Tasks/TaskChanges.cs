namespace Nursery.Domain.Tasks;

/// <summary>What must be written so that the open tasks are those the rules want.</summary>
/// <param name="Withdrawn">Open ones no rule asks for any more.</param>
/// <param name="Raised">New ones, ones that come back, and ones whose day or reason changed.</param>
public sealed record TaskChanges(IReadOnlyList<Id<RoundTask>> Withdrawn, IReadOnlyList<WantedTask> Raised)
{
    public static TaskChanges Between(IReadOnlyCollection<OpenTask> open, IReadOnlyCollection<WantedTask> wanted)
    {
        var stored = open.ToDictionary(task => (task.Subject, task.Kind, task.Occurrence));
        var kept = new HashSet<(Guid, TaskKind, int)>(wanted.Count);
        var raised = new List<WantedTask>();
        foreach (var want in wanted)
        {
            var key = (want.Subject.Id, want.Task.Kind, want.Task.Occurrence);
            kept.Add(key);
            if (!stored.TryGetValue(key, out var known) || known.DueOn != want.Task.DueOn || known.Why != want.Task.Why)
            {
                raised.Add(want);
            }
        }

        return new TaskChanges([.. stored.Where(task => !kept.Contains(task.Key)).Select(task => task.Value.Id)], raised);
    }
}
