namespace Nursery.Data.Cluster;

public sealed class DataFolderInUse(string folder) : ClusterRefusal(
    $"The data folder {folder} is in use by another running Nursery: stop that one first, or name another folder in {PgClusterOptions.FolderVariable}.");
