using System.Security.Cryptography;

namespace Nursery.Application.Scenario;

internal static class SignInSecrets
{
    // No i, l, o, 0, 1: people read these from a file and type them on a tablet.
    private const string Alphabet = "abcdefghjkmnpqrstuvwxyz23456789";
    private const int Groups = 4;
    private const int GroupLength = 5;

    /// <summary>A random password of 20 signs out of 31: 99 bits.</summary>
    public static string NewPassword() => string.Join(
        '-', Enumerable.Range(0, Groups).Select(_ => RandomNumberGenerator.GetString(Alphabet, GroupLength)));
}
