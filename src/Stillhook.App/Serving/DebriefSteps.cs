using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>The two steps a page needs from the rest of the program.</summary>
/// <param name="Read">Record bytes and file name to a record; bad content is a finding, never an exception.</param>
/// <param name="Debrief">Record and the crew's figures to the debrief and the next approach.</param>
public sealed record DebriefSteps(
    Func<Stream, string, FlightRecord> Read,
    Func<FlightRecord, LiftSetup, (Debrief Debrief, NextApproach Next)> Debrief)
{
    /// <summary>The program's own steps. A packed record may unpack to what a plain one may have.</summary>
    /// <param name="uploadLimitMb">Largest record, MB.</param>
    public static DebriefSteps Usual(int uploadLimitMb)
    {
        RecordReadOptions reading = new() { LargestExpandedBytes = (long)uploadLimitMb << 20 };
        return new((content, name) => RecordReader.Read(content, name, reading), (record, setup) =>
        {
            Debrief debrief = Job.Debrief(record, setup);
            return (debrief, Job.Next(debrief));
        });
    }
}
