using NodaTime;

namespace Nursery.Domain.Batches;

/// <summary>How many were up on a day.</summary>
/// <param name="Day">The site-local day.</param>
/// <param name="Seeds">Seeds of the counted cells; null when someone looked over the whole batch and saw nothing.</param>
/// <param name="Up">Seedlings in them.</param>
public sealed record EmergenceCount(LocalDate Day, int? Seeds, decimal Up)
{
    /// <summary>0–1.</summary>
    public decimal Fraction => Seeds is > 0 and var seeds ? Up / seeds : 0;
}
