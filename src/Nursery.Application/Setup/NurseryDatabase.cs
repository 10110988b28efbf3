namespace Nursery.Application.Setup;

/// <summary>Where the data is: the role the app runs as, and the one that may change the schema.</summary>
public sealed record NurseryDatabase(string AppConnectionString, string OwnerConnectionString);
