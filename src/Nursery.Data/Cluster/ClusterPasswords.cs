using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text.Json;

namespace Nursery.Data.Cluster;

/// <summary>The passwords of the private cluster's two roles: 256 random bits each, in a file only its owner can read.</summary>
internal sealed record ClusterPasswords(string Owner, string App)
{
    private const UnixFileMode _ownerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    public static ClusterPasswords Read(string file) =>
        JsonSerializer.Deserialize<ClusterPasswords>(File.ReadAllText(file))
        ?? throw DataFolderUnreachable.PasswordsLost(file);

    /// <summary>Written whole and flushed before the cluster is made with them, so that a crash in between costs nothing.</summary>
    public static ClusterPasswords Create(string file)
    {
        var made = new ClusterPasswords(New(), New());
        var draft = file + ".new";
        File.Delete(draft);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, UnixCreateMode = _ownerOnly };
        using (var stream = new FileStream(draft, options))
        {
            JsonSerializer.Serialize(stream, made);
            stream.Flush(flushToDisk: true);
        }

        File.Move(draft, file, overwrite: true);
        return made;
    }

    public static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
}
