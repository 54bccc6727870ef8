using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Files.Reports;

/// <summary>A job file with the sites of finished work and the measured time of a rotation: where the next job at the same place starts from.</summary>
/// <remarks>
/// What holds only for its day is left out: weather, forecast, altimeter over the target, where people stood, and that a wire was dead or how close it was passed.
/// A wire that was dead on one day is not dead on the next.
/// </remarks>
public static class SiteFile
{
    /// <summary>The request that the file holds.</summary>
    /// <param name="job">The finished job.</param>
    /// <param name="lifts">Lifts to measure the rotation on; the leg with the most rotations says how long one takes.</param>
    public static LiftRequest Request(LiftRequest job, IEnumerable<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(job);
        CycleBaseline? cycle = CycleBaseline.Of(lifts).FirstOrDefault(b => b.Family is null);
        return new()
        {
            TimeZone = job.TimeZone,
            Units = job.Units,
            Sites = [.. job.Sites.Select(Lasting)],
            Quote = cycle is null ? null : new()
            {
                Cycle = UnitsNet.Duration.FromSeconds(Math.Round(cycle.MeanS, 1)),
                CycleSpread = UnitsNet.Duration.FromSeconds(Math.Round(cycle.SigmaS, 1)),
                MeasuredOn = cycle.Count,
            },
        };
    }

    /// <summary>Writes the file.</summary>
    public static void Write(Stream stream, LiftRequest job, IEnumerable<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(stream);
        LiftRequest request = Request(job, lifts);
        string name = JsonEncodedText.Encode(job.Job ?? "a job without a name", JavaScriptEncoder.Default).ToString();
        string head = $"// Sites of {name}. Weather, people, altimeter readings and dead wires belong to their day and are left out: enter them anew.\n";
        stream.Write(Encoding.UTF8.GetBytes(head + JobWriter.Text(request)));
    }

    private static Site Lasting(Site site) => site with
    {
        Recon = null,
        Weather = null,
        Forecast = [],
        People = [],
        Wires = [.. site.Wires.Select(w => w with { Dead = null, ClosestPlanned = null })],
    };
}
