using System.Diagnostics;
using Stillhook.Store;

namespace Stillhook.Tests.App;

/// <summary>Accounts at the terminal; passwords come on standard input.</summary>
public sealed class AccountCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    private string Place => Path.Combine(folder, "work.db");

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Account_AddedListedChangedRemoved()
    {
        Assert.Contains("at least 12 characters", (await Asked("short", "add", "B. Keller", "--role", "pilot")).Errors, StringComparison.Ordinal);
        Assert.Equal(0, (await Asked("one ridge after another", "add", "keller", "--role", "pilot", "--role", "planner", "--flies-as", "B. Keller")).ExitCode);
        Assert.Contains("already", Here("add", "KELLER", "--role", "viewer").Errors, StringComparison.Ordinal);
        Assert.Contains("are read by account keller already", Here("add", "other", "--role", "pilot", "--flies-as", "b. keller").Errors, StringComparison.Ordinal);
        Assert.Equal("keller: pilot, planner; flies as B. Keller\n", Here("list").Output.ReplaceLineEndings("\n"));
        Assert.Equal(0, (await Asked("quite another ridge", "password", "keller")).ExitCode);
        Assert.Equal(2, Here("remove", "nobody").ExitCode);
        Assert.Equal(0, Here("remove", "Keller").ExitCode);
        Assert.False(WorkStore.Open(Place).HasAccounts());
    }

    [Theory]
    [InlineData(" blank"), InlineData("tab\there"), InlineData("this device")]
    public void Account_NameThatCantBe_IsRefused(string name) => Assert.Equal(2, Here("add", name, "--role", "viewer").ExitCode);

    [Fact]
    public void Account_UnknownRole_IsRefused() => Assert.Contains("chief", Here("add", "x", "--role", "chief").Errors, StringComparison.Ordinal);

    private StartedProgram.Result Here(params string[] arguments) => HostedProgram.Run(["account", .. arguments, "--store", Place]);

    private async Task<StartedProgram.Result> Asked(string password, params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll"), "account", .. arguments, "--store", Place])
        { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        await process.StandardInput.WriteLineAsync(password);
        process.StandardInput.Close();
        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return new(process.ExitCode, await output, await errors);
    }
}
