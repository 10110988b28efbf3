using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Nursery.Data;

/// <summary>Lets dotnet-ef build the model; making a migration needs no database.</summary>
internal sealed class NurseryDbDesignFactory : IDesignTimeDbContextFactory<NurseryDbContext>
{
    public NurseryDbContext CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<NurseryDbContext>();
        options.UseNurseryDatabase("Host=127.0.0.1;Database=nursery;Username=nursery");
        return new NurseryDbContext(options.Options);
    }
}
