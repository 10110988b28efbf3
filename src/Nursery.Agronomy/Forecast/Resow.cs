using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Forecast;

/// <summary>How much to sow again beside a batch that may fall short: the whole trays whose price and what is then still missing cost least.
/// Source: the newsvendor's rule, as in Nahmias &amp; Olsen, Production and Operations Analysis, 7th ed. 2015, 5.3 (from memory).</summary>
/// <param name="Trays">0 when sowing again costs more than it brings.</param>
/// <param name="Plants">Plants it gives on average.</param>
/// <param name="Missing">Plants still missing on average.</param>
/// <param name="ChanceMet">That with them enough plants are usable.</param>
/// <param name="Cost">Of the trays and of what is still missing, in prices of a plant.</param>
/// <param name="CostOfNothing">Of what is missing when nothing is done.</param>
public sealed record Resow(int Trays, double Plants, double Missing, double ChanceMet, double Cost, double CostOfNothing)
{
    private const int Nodes = 16;

    /// <summary>What it saves against doing nothing, 0 or more.</summary>
    public double Worth => CostOfNothing - Cost;

    /// <summary>The number of trays that costs least.</summary>
    /// <param name="outlook">Of the batch.</param>
    /// <param name="wanted">Plants, 1 or more.</param>
    /// <param name="question">What would be sown.</param>
    /// <param name="costs">In prices of a plant.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Resow Best(EmergenceOutlook outlook, int wanted, ResowQuestion question, RemedyCosts costs)
    {
        Check(wanted, question, costs);
        var share = Share(question);
        var best = Of(outlook, wanted, question, costs, 0, share);

        // Each further tray brings less than the one before, so the first that costs more ends it.
        for (var trays = 1; trays <= question.MostTrays; trays++)
        {
            var next = Of(outlook, wanted, question, costs, trays, share);
            if (next.Cost >= best.Cost)
            {
                break;
            }

            best = next;
        }

        return best;
    }

    /// <summary>So many trays.</summary>
    /// <param name="trays">0 to what seed there is.</param>
    /// <inheritdoc cref="Best"/>
    public static Resow Of(EmergenceOutlook outlook, int wanted, ResowQuestion question, RemedyCosts costs, int trays)
    {
        Check(wanted, question, costs);
        InputOutOfRange.Within(trays, 0, question.MostTrays, nameof(trays), "trays");
        return Of(outlook, wanted, question, costs, trays, Share(question));
    }

    private static Resow Of(
        EmergenceOutlook outlook, int wanted, ResowQuestion question, RemedyCosts costs, int trays, (double Mean, double Variance) share)
    {
        var cells = (double)trays * question.CellsPerTray;
        var beside = new Moments(cells * share.Mean, (cells * share.Mean * (1 - share.Mean)) + (cells * cells * share.Variance));
        var missing = outlook.MissingOf(wanted, beside);
        return new Resow(
            trays, beside.Mean, missing, outlook.ChanceOf(wanted, beside), (cells * costs.ResownCell) + (costs.MissingPlant * missing),
            costs.MissingPlant * outlook.MissingOf(wanted));
    }

    private static void Check(int wanted, ResowQuestion question, RemedyCosts costs)
    {
        InputOutOfRange.Within(wanted, 1, 10_000_000, nameof(wanted), "plants");
        question.Check();
        costs.Check();
    }

    /// <summary>Of a cell to give a usable plant: mean over batches, and how much batches differ.</summary>
    private static (double Mean, double Variance) Share(ResowQuestion question)
    {
        var (fill, square) = (0d, 0d);
        for (var node = 0; node < Nodes; node++)
        {
            var up = ForecastPosterior.Up(Beta.InvCDF(question.Prior.A, question.Prior.B, (node + 0.5) / Nodes), question.SeedsPerCell);
            (fill, square) = (fill + (up / Nodes), square + (up * up / Nodes));
        }

        var (survives, spread) = (question.Survival?.Mean ?? 1, question.Survival?.Spread ?? 0);
        var mean = fill * survives;
        return (mean, Math.Max(0, (square * ((survives * survives) + (spread * spread))) - (mean * mean)));
    }
}
