namespace Nursery.Past;

/// <summary>Who came when. Each has habits: the first counts a sample, the second counts blanks only, all others every seedling.</summary>
internal sealed class Crew
{
    private readonly Dictionary<int, (int Morning, int Watering)> _days = [];

    public Crew(int workers, int firstDay, Pcg32 random)
    {
        for (var day = firstDay; day < 0; day++)
        {
            // People are ill or away now and then. Every seventh day one comes at most, and now and then nobody.
            var present = Enumerable.Range(0, workers).Where(_ => random.Chance(0.88)).ToList();
            if (((day % 7) + 7) % 7 == 0 && present.Count > 0)
            {
                present = random.Chance(0.7) ? [random.OneOf(present)] : [];
            }

            if (present.Count > 0)
            {
                var morning = random.Below(present.Count);
                _days[day] = (present[morning], present[(morning + 1) % present.Count]);
            }
        }
    }

    public bool Comes(int day) => _days.ContainsKey(day);

    public int Morning(int day) => _days[day].Morning;

    public int Watering(int day) => _days[day].Watering;

    public static bool CountsASample(int worker) => worker == 0;

    public static bool CountsBlanks(int worker) => worker == 1;

    /// <summary>Every fourth count is off by one.</summary>
    public static int Miscount(int value, int most, Pcg32 random) =>
        random.Chance(0.25) ? Math.Clamp(value + (random.Chance(0.5) ? 1 : -1), 0, most) : value;
}
