using Stillhook.Files.Jobs;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary>The job file named on the command line.</summary>
internal static class JobFiles
{
    /// <summary>The file as read; one that can't be opened is a finding too.</summary>
    public static JobFile Read(FileInfo file)
    {
        try
        {
            using FileStream stream = file.OpenRead();
            return JobFile.Read(stream);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(new(), [new(Severity.Error, "job-not-readable", null, 1, $"The job file can't be opened: {e.Message}", "Check the path and the permission.")]);
        }
    }
}
