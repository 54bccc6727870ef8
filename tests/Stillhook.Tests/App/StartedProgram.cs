using System.Diagnostics;

namespace Stillhook.Tests.App;

/// <summary>The program started as a user starts it.</summary>
internal static class StartedProgram
{
    public sealed record Result(int ExitCode, string Output, string Errors);

    public static Result Run(params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll"), .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        // A user whose decimal mark is a comma gets the same figures.
        start.Environment["LC_ALL"] = System.Globalization.CultureInfo.CurrentCulture.Name == "de-DE" ? "de_DE.UTF-8" : "C.UTF-8";
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(), errors = process.StandardError.ReadToEndAsync();
        process.WaitForExit();
        return new(process.ExitCode, output.Result, errors.Result);
    }
}
