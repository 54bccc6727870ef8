using Stillhook.Debriefing;
using Stillhook.Following;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Following;

/// <summary>The demonstration day with a load cell, followed sample by sample, and debriefed from its file.</summary>
public sealed class FollowedDemoDay
{
    public FollowedDemoDay()
    {
        Truth = DemoDay.Fly();
        Record = Recorder.Record(Truth, DemoDay.RecorderModel with { LoadCell = true }, DemoDay.Seed);
        LiftSetup setup = LiveFeed.WithSites(Truth.Scenario.CrewSetup(DemoDay.Seed), Truth);
        Follower = new(Record.Name, setup);
        foreach (Arrival a in LiveFeed.Of(Record))
        {
            LiveFeed.Feed(Follower, a);
            Times.Take(Follower.NewestS, Follower.IsStanding ? Follower.StandsSinceS : null, Follower.IsStanding ? Follower.At : null);
            if (!Follower.IsLookDue)
                continue;
            FlightRecord part = Follower.Look();
            Debrief look = Debriefer.Debrief(part, setup);
            Follower.Take(look, part);
            Times.Take(look);
        }
        File = Debriefer.Debrief(Record, setup);
    }

    public SimulatedDay Truth { get; }

    public FlightRecord Record { get; }

    public FlightFollower Follower { get; }

    public FlightTimes Times { get; } = new();

    public Debrief File { get; }
}
