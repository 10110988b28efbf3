using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Nursery.Domain;

/// <summary>An id computed from another: the same cause gives the same id, so a repeated request repeats nothing.
/// Layout: UUIDv8 (RFC 9562, 5.8); it keeps the time prefix of its source, so it sorts beside it.</summary>
public static class DerivedId
{
    public static Guid From(Guid source, string role, int ordinal = 0)
    {
        Span<byte> bytes = stackalloc byte[16];
        source.TryWriteBytes(bytes, bigEndian: true, out _);
        var name = source.ToString("N") + role + ordinal.ToString(CultureInfo.InvariantCulture);
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(name));
        hash.AsSpan(0, 10).CopyTo(bytes[6..]);
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
