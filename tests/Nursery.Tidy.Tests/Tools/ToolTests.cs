namespace Nursery.Tidy.Tests.Tools;

/// <summary>What the tools say of the whole checkout. Built already: nothing here builds or restores.</summary>
public sealed class ToolTests
{
    [Fact]
    public void Model_AndMigrations_AreTheSame()
    {
        var (exitCode, output) = Repository.Run(
            "dotnet", "ef migrations has-pending-model-changes --no-build --project src/Nursery.Data --startup-project src/Nursery.Data");

        Assert.True(exitCode == 0, output);
    }

    [Fact]
    public void Format_OfAllFiles_IsTheOneOfEditorconfig()
    {
        var (exitCode, output) = Repository.Run("dotnet", "format Nursery.sln --verify-no-changes --no-restore");

        Assert.True(exitCode == 0, output);
    }

    [Theory]
    [InlineData("deploy/run.sh")]
    [InlineData("deploy/install.sh")]
    [InlineData("tests/run.sh")]
    [InlineData(".ci/run")]
    public void Scripts_AreReadableByBash(string script)
    {
        var (exitCode, output) = Repository.Run("bash", $"-n {script}");

        Assert.True(exitCode == 0, output);
    }
}
