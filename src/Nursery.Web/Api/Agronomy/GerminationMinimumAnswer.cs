using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>The standard of a kind, and where it is printed.</summary>
internal sealed record GerminationMinimumAnswer(string Kind, double Percent, string Source, How How);
