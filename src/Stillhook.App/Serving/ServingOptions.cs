using System.Reflection;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>How the pages are served.</summary>
public sealed record ServingOptions
{
    /// <summary>Where the work is kept.</summary>
    public required WorkStore Store { get; init; }

    /// <summary>Reading and debriefing.</summary>
    public required DebriefSteps Steps { get; init; }

    /// <summary>Port on the loopback address; 0 takes any free one.</summary>
    public int Port { get; init; } = 5080;

    /// <summary>Largest record a page takes, MB (10⁶ bytes). Larger ones are debriefed from the terminal.</summary>
    public int UploadLimitMb { get; init; } = 400;

    /// <summary>Clock for import times.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>Version written beside cached summaries.</summary>
    public static string ProgramVersion { get; } =
        typeof(ServingOptions).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";
}
