using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Debriefing;

/// <summary>Hikes, drives, runs, boats, gliders and a rescue helicopter carried no sling load: none may show a delivery.</summary>
public class NoDeliveriesTests
{
    private static readonly string Records = Repository.File("tests/data/records");

    public static TheoryData<string> Files => [.. new[] { "gpx", "igc", "nmea", "csv", "helicopter" }
        .SelectMany(folder => Directory.GetFiles(Path.Combine(Records, folder)))
        .Select(path => Path.GetRelativePath(Records, path).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    // Real record: what each file holds stands in tests/data/records/SOURCES.md.
    [Theory]
    [MemberData(nameof(Files))]
    public void Debrief_RecordWithoutSlingLoads_FindsNoneAndSaysWhy(string file)
    {
        FlightRecord record = RecordReader.ReadFile(Path.Combine(Records, file));
        Debrief debrief = Debriefer.Debrief(record, new LiftSetup(), cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(debrief.Rotations);
        Assert.NotEmpty(debrief.NoRotationsBecause!);
    }

    // Simulated truth in its plainest form: the same hand-made day at one fix in five seconds, without load meter, keeps its repeated rotations
    // but says nothing of hover, swing and sink.
    [Fact]
    public void Debrief_CoarseRecordOfRepeatedRotations_KeepsThemAndLeavesTheRestUnjudged()
    {
        var scenario = ScenarioDraw.Random(11, rotations: 6, FaultMix.Clean);
        var day = DaySimulator.Fly(scenario, 11);
        FlightRecord record = Recorder.Record(day, RecorderModel.WithError(1) with { RateHz = 0.2, Speed = false }, 11);
        Debrief debrief = Debriefer.Debrief(record, scenario.ExactSetup(), cancellation: TestContext.Current.CancellationToken);
        Assert.InRange(debrief.Rotations.Count, 4, 6);
        Assert.All(debrief.Rotations, r => Assert.Null(r.Delivery!.HoverTimeS ?? r.Delivery.SinkLast15Ms ?? r.Delivery.SwingContactM?.Value));
        Assert.All(debrief.Rotations, r => Assert.NotNull(r.DeliveryEnu));
    }
}
