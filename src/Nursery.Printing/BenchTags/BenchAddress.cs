namespace Nursery.Printing.BenchTags;

/// <summary>What the QR code of a bench says.</summary>
internal static class BenchAddress
{
    /// <summary>
    /// The address of the bench, or its code alone. Scheme and host go in capitals (they mean the same, RFC 3986 §6.2.2.1), and
    /// capitals are QR's compact alphabet: fewer, larger modules. A path is left as it is.
    /// </summary>
    public static string Of(string benchCode, string? publicAddress)
    {
        if (string.IsNullOrWhiteSpace(publicAddress))
            return benchCode;
        if (!Uri.TryCreate(publicAddress, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
            throw new ArgumentException($"The public address must start with http:// or https://, not '{publicAddress}'.", nameof(publicAddress));
        var server = address.GetLeftPart(UriPartial.Authority).ToUpperInvariant();
        return $"{server}{address.AbsolutePath.TrimEnd('/')}/B/{Uri.EscapeDataString(benchCode)}";
    }
}
