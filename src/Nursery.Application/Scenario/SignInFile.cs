using System.Text;

namespace Nursery.Application.Scenario;

/// <summary>The file that tells whoever started the demo how to sign in. Only its owner may read it.</summary>
public static class SignInFile
{
    /// <summary>Writes lines <c>role user password</c>, and <c>api-key KEY</c>.</summary>
    public static async Task WriteAsync(string path, ScenarioResult result, CancellationToken cancellation = default)
    {
        // A file that is there keeps its mode, so it goes first: the secrets never lie where others may read.
        File.Delete(path);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        var lines = result.SignIns
            .OrderBy(signIn => signIn.Role)
            .Select(signIn => $"{RoleWords.Of(signIn.Role)} {signIn.User} {signIn.Password}")
            .Append($"api-key {result.ApiKey}");
        await using var file = new FileStream(path, options);
        await file.WriteAsync(Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n"), cancellation);
    }
}
