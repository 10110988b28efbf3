using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using NpgsqlTypes;
using Nursery.Domain;

namespace Nursery.Data.Conventions;

/// <summary>A run of spaces as int4range, half open as PostgreSQL returns it.</summary>
internal sealed class SpaceRunConverter() : ValueConverter<SpaceRun, NpgsqlRange<int>>(
    run => new NpgsqlRange<int>(run.First, true, run.First + run.Count, false),
    range => new SpaceRun(range.LowerBound, range.UpperBound - range.LowerBound));
