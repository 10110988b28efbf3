namespace Nursery.Web.Api.Agronomy;

/// <summary>Feed for water at the plants; ratio 100 for an injector of 1:100, 1 without one.</summary>
internal sealed record FeedRequest(double Ppm, double NutrientPercent, double WaterL, double? InjectorRatio);
