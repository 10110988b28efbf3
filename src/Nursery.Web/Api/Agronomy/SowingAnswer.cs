using Nursery.Application.Computed;
using Nursery.Agronomy.Sowing;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Every way to sow; best is the cheapest, patch the way with one seed a cell and seedlings moved into blanks.</summary>
internal sealed record SowingAnswer(IReadOnlyList<SowingOption> Options, SowingOption Best, PatchOption? Patch, How How);
