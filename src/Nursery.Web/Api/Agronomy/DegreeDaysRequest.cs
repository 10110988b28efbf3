using Nursery.Agronomy.DegreeDays;

namespace Nursery.Web.Api.Agronomy;

/// <summary>A day; the double methods need the next day's minimum.</summary>
internal sealed record DegreeDaysRequest(double MinC, double MaxC, double? NextMinC, double LowerC, double UpperC, DegreeDayMethod Method);
