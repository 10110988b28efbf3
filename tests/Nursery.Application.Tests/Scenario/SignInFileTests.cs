using Nursery.Application.Scenario;
using Nursery.Domain.People;
using Xunit;

namespace Nursery.Application.Tests.Scenario;

public sealed class SignInFileTests : IDisposable
{
    private static readonly ScenarioResult Result = new(
        1, 1, 1, 1, 1, 1, 1, 1, 1,
        [
            new SignIn(Role.Staff, "teo", "cc"), new SignIn(Role.HeadGrower, "imke", "bb"),
            new SignIn(Role.Manager, "corin", "dd"), new SignIn(Role.Administrator, "odile", "aa"),
        ],
        "nur_key");

    private readonly string _folder = Directory.CreateTempSubdirectory("sign-in-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task WriteAsync_Result_WritesOneLineARoleAndTheKey()
    {
        var path = Path.Combine(_folder, "demo-sign-in.txt");

        await SignInFile.WriteAsync(path, Result);

        Assert.Equal(
            "administrator odile aa\nhead-grower imke bb\nstaff teo cc\nmanager corin dd\napi-key nur_key\n",
            await File.ReadAllTextAsync(path));
    }

    [Fact]
    public async Task WriteAsync_FileOthersCanRead_IsReplacedByOneTheyCannot()
    {
        var path = Path.Combine(_folder, "demo-sign-in.txt");
        await File.WriteAllTextAsync(path, "old");
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead);

        await SignInFile.WriteAsync(path, Result);

        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        Assert.DoesNotContain("old", await File.ReadAllTextAsync(path), StringComparison.Ordinal);
    }
}
