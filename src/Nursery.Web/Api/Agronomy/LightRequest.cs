namespace Nursery.Web.Api.Agronomy;

/// <summary>Lamps: ppfd with hours, or ppfd with what is wanted and what the sun gives.</summary>
internal sealed record LightRequest(double Ppfd, double? Hours, double? WantedMol, double? NaturalMol);
