using Nursery.Agronomy.Sowing;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Every way to sow; best is the cheapest, patch the way with one seed a cell and seedlings moved into blanks.</summary>
internal sealed record SowingAnswer(IReadOnlyList<SowingOption> Options, SowingOption Best, PatchOption? Patch, How How);
