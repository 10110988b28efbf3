using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Grams for all the water; grams in a liter of concentrate; ounces in 100 US gallons at the plants.</summary>
internal sealed record FeedAnswer(double Grams, double GramsPerLitreConcentrate, double OuncesPer100Gal, How How);
