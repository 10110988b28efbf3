namespace Nursery.Agronomy.Feed;

/// <summary>How strong feed may be by what the seedlings show (from memory): none before cotyledons, weak until true leaves. Source of the
/// upper end: liquid feed of 100 ppm once or twice a week, Transplant Production, Utah State University Extension.</summary>
public enum FeedStage
{
    BeforeCotyledons,
    Cotyledons,
    TrueLeaves,
}
