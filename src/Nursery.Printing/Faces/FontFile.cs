using System.Buffers.Binary;
using System.Text;

namespace Nursery.Printing.Faces;

/// <summary>One embedded TrueType file: its bytes as PDFsharp wants them, and the characters it holds.</summary>
internal sealed class FontFile
{
    private readonly HashSet<int> _characters = [];

    private FontFile(string name, byte[] bytes)
    {
        Name = name;
        Bytes = bytes;
    }

    public string Name { get; }

    public byte[] Bytes { get; }

    public bool Holds(char character) => _characters.Contains(character);

    public static FontFile Read(string name)
    {
        using var stream = typeof(FontFile).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The font {name} is not embedded.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        var file = new FontFile(name, bytes);
        file.GiveOwnName();
        file.ReadCharacters();
        return file;
    }

    /// <summary>
    /// PDFsharp keeps fonts by the full name inside the file (name table, id 4), and both subsets of a face carry the same
    /// one: the second would be taken for the first. So each gets its own file name there.
    /// </summary>
    private void GiveOwnName()
    {
        var table = Table("name");
        var strings = table + U16(table + 4);
        var own = Encoding.BigEndianUnicode.GetBytes(Name);
        for (var record = table + 6; record < table + 6 + 12 * U16(table + 2); record += 12)
        {
            if (U16(record + 6) != 4)
                continue;
            if (own.Length > U16(record + 8))
                throw new InvalidOperationException($"The font {Name} has no room for its own name.");
            own.CopyTo(Bytes, strings + U16(record + 10));
            BinaryPrimitives.WriteUInt16BigEndian(Bytes.AsSpan(record + 8), (ushort)own.Length);
        }
    }

    /// <summary>Reads the cmap subtable of format 4. Layout: OpenType specification (ISO/IEC 14496-22), "cmap".</summary>
    private void ReadCharacters()
    {
        var cmap = Table("cmap");
        var subtable = cmap + (int)BinaryPrimitives.ReadUInt32BigEndian(Bytes.AsSpan(cmap + 8));
        if (U16(subtable) != 4)
            throw new InvalidOperationException($"The font {Name} has a character table of format {U16(subtable)}; 4 is read.");
        var twice = U16(subtable + 6);
        for (var i = 0; i < twice; i += 2)
        {
            int last = U16(subtable + 14 + i), first = U16(subtable + 16 + twice + i);
            for (var character = first; character <= last && character != 0xFFFF; character++)
                _characters.Add(character);
        }
    }

    private int Table(string tag)
    {
        for (var entry = 12; entry < 12 + 16 * U16(4); entry += 16)
        {
            if (Encoding.ASCII.GetString(Bytes, entry, 4) == tag)
                return (int)BinaryPrimitives.ReadUInt32BigEndian(Bytes.AsSpan(entry + 8));
        }

        throw new InvalidOperationException($"The font {Name} has no table {tag}.");
    }

    private int U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(Bytes.AsSpan(at));
}
