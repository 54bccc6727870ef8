using System.Net;
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

    /// <summary>The flight that is listened to; null when none is.</summary>
    public LiveDesk? Live { get; init; }

    /// <summary>Address at which the ground page is open to the network; null keeps everything on this machine.</summary>
    public IPEndPoint? Open { get; init; }

    /// <summary>Codes by which a screen on the network is let in; null when nothing is open.</summary>
    public OneTimeCodes? Codes { get; init; }

    /// <summary>The pages opened to a network, with accounts; null keeps them on this machine without any.</summary>
    public OpenedPages? Opened { get; init; }

    /// <summary>Longest time in which something may be sent to a page; what takes longer is ended. Own choice: 400 MB at 4 Mbit/s.</summary>
    public TimeSpan LongestUpload { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>How long what is sent may be slower than 1 kB/s before it is ended.</summary>
    public TimeSpan SlowUpload { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Clock for import times.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>Version written beside cached summaries.</summary>
    public static string ProgramVersion { get; } =
        typeof(ServingOptions).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";
}
