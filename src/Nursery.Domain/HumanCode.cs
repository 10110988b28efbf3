using System.Globalization;

namespace Nursery.Domain;

/// <summary>Codes people read from a tag and type: two letters of the crop, a number, a check sign (EG-031-K).</summary>
public static class HumanCode
{
    private const string Alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

    /// <summary>The code of batch <paramref name="number"/> (1 or more) of a crop whose code is <paramref name="cropCode"/>.</summary>
    public static string ForBatch(string cropCode, int number)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(number, 1);
        var digits = number.ToString("000", CultureInfo.InvariantCulture);
        return $"{cropCode}-{digits}-{CheckSign(cropCode + digits)}";
    }

    /// <summary>The code of the n-th tray set of a batch (EG-031-K-1).</summary>
    public static string ForTraySet(string batchCode, int number) =>
        string.Create(CultureInfo.InvariantCulture, $"{batchCode}-{number}");

    /// <summary>The check sign over letters and digits by the hybrid system MOD 37,36 of ISO 7064:2003 (section 9):
    /// it finds every single wrong sign and every swap of neighbours but a few.</summary>
    /// <exception cref="ArgumentException">A sign other than 0–9 and A–Z.</exception>
    public static char CheckSign(string payload)
    {
        const int m = 36;
        var carry = m;
        foreach (var sign in payload)
        {
            carry += ValueOf(sign);
            carry = carry > m ? carry - m : carry;
            carry = carry * 2 % (m + 1);
        }

        return Alphabet[(m + 1 - carry) % m];
    }

    /// <summary>Whether a code someone typed ends in the right check sign; hyphens and case do not matter.</summary>
    public static bool IsValid(string code)
    {
        var signs = code.Replace("-", "", StringComparison.Ordinal).ToUpperInvariant();
        return signs.Length >= 2
            && signs.All(sign => Alphabet.Contains(sign, StringComparison.Ordinal))
            && CheckSign(signs[..^1]) == signs[^1];
    }

    private static int ValueOf(char sign)
    {
        var value = Alphabet.IndexOf(sign, StringComparison.Ordinal);
        return value >= 0 ? value : throw new ArgumentException($"'{sign}' is not a digit or a capital letter", nameof(sign));
    }
}
