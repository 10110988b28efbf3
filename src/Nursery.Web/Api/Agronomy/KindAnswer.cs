namespace Nursery.Web.Api.Agronomy;

/// <summary>A kind and its lowest germination.</summary>
internal sealed record KindAnswer(string Kind, double Percent);
