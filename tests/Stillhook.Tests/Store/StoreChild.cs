using System.Diagnostics;

namespace Stillhook.Tests.Store;

/// <summary>The store used by a process of its own (tests/Stillhook.StoreChild).</summary>
internal static class StoreChild
{
    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "Stillhook.StoreChild.dll");

    public static Process Start(params string[] arguments) => Process.Start(Described(false, arguments))!;

    /// <summary>Runs it to its end.</summary>
    /// <param name="asNobody">With the rights of a user who owns nothing, where this process is root.</param>
    /// <param name="arguments">What to do.</param>
    public static (int Code, string Said) Run(bool asNobody, params string[] arguments)
    {
        using Process process = Process.Start(Described(asNobody && Environment.UserName == "root", arguments))!;
        string said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, said);
    }

    private static ProcessStartInfo Described(bool asNobody, string[] arguments)
    {
        string host = Environment.ProcessPath is { } path && Path.GetFileNameWithoutExtension(path) == "dotnet" ? path : "dotnet";
        string[] whole = [host, Program, .. arguments];
        if (asNobody)
            whole = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", .. whole];
        ProcessStartInfo start = new(whole[0]) { RedirectStandardOutput = true, WorkingDirectory = Path.GetTempPath() };
        foreach (string argument in whole[1..])
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_TieredPGO"] = "0";
        return start;
    }
}
