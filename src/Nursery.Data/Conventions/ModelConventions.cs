using Microsoft.EntityFrameworkCore;
using Nursery.Domain;
using Nursery.Domain.Ledger;

namespace Nursery.Data.Conventions;

/// <summary>How our value types become columns, once for all entities.</summary>
internal static class ModelConventions
{
    public static void Apply(ModelConfigurationBuilder configuration)
    {
        var domain = typeof(Id<>).Assembly.GetExportedTypes();
        foreach (var type in domain.Where(type => type.IsClass && !type.IsAbstract && !type.IsGenericTypeDefinition))
        {
            configuration.Properties(typeof(Id<>).MakeGenericType(type))
                .HaveConversion(typeof(IdConverter<>).MakeGenericType(type));
        }

        foreach (var type in domain.Where(type => type.IsEnum))
        {
            configuration.Properties(type).HaveConversion<string>().HaveMaxLength(24);
        }

        configuration.Properties<SpaceRun>().HaveConversion<SpaceRunConverter>().HaveColumnType("int4range");
        configuration.Properties<EntryValue>().HaveConversion<EntryValueConverter>().HaveColumnType("jsonb");
        configuration.Properties<decimal>().HavePrecision(12, 4);
        configuration.Properties<string>().HaveMaxLength(200);
    }
}
