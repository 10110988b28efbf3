using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Nursery.Data.Tests")]
