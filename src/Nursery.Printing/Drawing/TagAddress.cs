namespace Nursery.Printing.Drawing;

/// <summary>What the QR code of a bench or of trays says.</summary>
internal static class TagAddress
{
    /// <summary>
    /// The address behind <paramref name="kind"/> (B a bench, T trays), or the code alone. Scheme and host go in capitals (they mean
    /// the same, RFC 3986 §6.2.2.1), and capitals are QR's compact alphabet: fewer, larger modules. A path is left as it is.
    /// </summary>
    public static string Of(char kind, string code, string? publicAddress)
    {
        if (string.IsNullOrWhiteSpace(publicAddress))
            return code;
        if (!Uri.TryCreate(publicAddress, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
            throw new ArgumentException($"The public address must start with http:// or https://, not '{publicAddress}'.", nameof(publicAddress));
        var server = address.GetLeftPart(UriPartial.Authority).ToUpperInvariant();
        return $"{server}{address.AbsolutePath.TrimEnd('/')}/{kind}/{Uri.EscapeDataString(code)}";
    }
}
