using Stillhook.Debriefing;
using Stillhook.Following;
using Stillhook.Physics.Earth;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Following;

/// <summary>One thing that arrives: a position or a value of a channel.</summary>
/// <param name="TimeS">Time of the sample.</param>
/// <param name="ArrivedS">When it arrives.</param>
internal sealed record Arrival(double TimeS, double ArrivedS, FixSample? Fix, ChannelSample? Sample);

/// <summary>A record as it would have arrived live.</summary>
internal static class LiveFeed
{
    /// <summary>Every fix and channel value in order of time, arriving a tenth of a second after its time.</summary>
    public static List<Arrival> Of(FlightRecord record)
    {
        List<Arrival> feed = [];
        for (int i = 0; i < record.Count; i++)
            feed.Add(new(record.TimeS[i], record.TimeS[i] + 0.1, Fix(record, i), null));
        foreach (Channel channel in record.Channels)
        {
            for (int i = 0; i < channel.TimeS.Length; i++)
                feed.Add(new(channel.TimeS[i], channel.TimeS[i] + 0.1, null, new(channel.Kind, channel.TimeS[i], channel.Value[i])));
        }
        return [.. feed.OrderBy(a => a.TimeS)];
    }

    public static FixSample Fix(FlightRecord record, int i) => new(
        record.TimeS[i], record.LatitudeDeg[i], record.LongitudeDeg[i], record.AltitudeM[i],
        At(record.GroundSpeedMs, i), At(record.CourseDeg, i), At(record.ClimbMs, i), At(record.PressureAltitudeM, i));

    private static double At(double[] column, int i) => i < column.Length ? column[i] : double.NaN;

    public static void Feed(ISampleSink sink, Arrival a)
    {
        if (a.Fix is { } fix)
            sink.Take("test", fix, a.ArrivedS);
        else
            sink.Take("test", a.Sample!.Value, a.ArrivedS);
    }

    /// <summary>Feeds it all, measuring whenever the follower asks for it; tells each new delivery with the time it was found.</summary>
    public static FlightFollower Follow(FlightRecord record, LiftSetup setup, FollowSettings? settings = null, Action<LiveDelivery, double>? found = null, Action<FlightFollower>? looked = null)
    {
        FlightFollower follower = new(record.Name, setup, settings);
        foreach (Arrival a in Of(record))
        {
            Feed(follower, a);
            if (LookIfDue(follower, setup, found))
                looked?.Invoke(follower);
        }
        return follower;
    }

    public static bool LookIfDue(FlightFollower follower, LiftSetup setup, Action<LiveDelivery, double>? found = null)
    {
        if (!follower.IsLookDue)
            return false;
        FlightRecord part = follower.Look();
        foreach (LiveDelivery delivery in follower.Take(Debriefer.Debrief(part, setup), part))
            found?.Invoke(delivery, follower.NewestS);
        return true;
    }

    /// <summary>The crew's figures with the sites that a job would name.</summary>
    public static LiftSetup WithSites(LiftSetup setup, SimulatedDay day)
    {
        KnownSite Site(string name, SiteUse use, Enu at)
        {
            (double lat, double lon, _) = day.ToGeodetic(at);
            return new(name, use, lat, lon);
        }
        return setup with { Sites = [Site("pick-up", SiteUse.PickUp, default), Site("target", SiteUse.Delivery, day.Scenario.TargetEnu)] };
    }
}
