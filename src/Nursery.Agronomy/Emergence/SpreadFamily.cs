namespace Nursery.Agronomy.Emergence;

/// <summary>How emergence of single seeds spreads over the logarithm of progress.</summary>
public enum SpreadFamily
{
    LogLogistic,
    LogNormal,
}
