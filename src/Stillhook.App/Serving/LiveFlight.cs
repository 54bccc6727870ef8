using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;

namespace Stillhook.App.Serving;

/// <summary>What is followed and how.</summary>
public sealed record LiveSetup
{
    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>The job flown; null when none was named.</summary>
    public OpenJob? Job { get; init; }

    /// <summary>Its lift plan; null when none could be made.</summary>
    public LiftPlan? Plan { get; init; }

    /// <summary>Whose order of loads the plan has, in words.</summary>
    public string OrderOf { get; init; } = "";

    /// <summary>The crew's figures.</summary>
    public required LiftSetup Setup { get; init; }

    /// <summary>One a delivery site; one without a site where the job names none.</summary>
    public required IReadOnlyList<SiteCard> Cards { get; init; }

    /// <summary>The operator's heights and speeds.</summary>
    public FollowSettings Settings { get; init; } = new();

    /// <summary>Asked before each look: the cards when others were issued since it was asked last, else null.</summary>
    public Func<IReadOnlyList<SiteCard>?> NewCards { get; init; } = () => null;
}

/// <summary>What the pages show of a flight that is being followed, at one moment.</summary>
public sealed record LiveState
{
    /// <summary>This machine's clock, s since 1970 UTC.</summary>
    public required double NowS { get; init; }

    /// <summary>Newest position, s since 1970 UTC; NaN before the first.</summary>
    public required double NewestS { get; init; }

    /// <summary>Whether the cockpit page is lit.</summary>
    public required ScreenLight Light { get; init; }

    /// <summary>Whether the aircraft stands on known ground.</summary>
    public required bool IsStanding { get; init; }

    /// <summary>Whether the height of any ground is known.</summary>
    public required bool KnowsGround { get; init; }

    /// <summary>Deliveries in order of time, also those taken back.</summary>
    public required IReadOnlyList<LiveDelivery> Deliveries { get; init; }

    /// <summary>The next approach, one a site.</summary>
    public required IReadOnlyList<LiveNext> Next { get; init; }

    /// <summary>Positions that were not used.</summary>
    public required FeedCounts Counts { get; init; }

    /// <summary>Whether two sources of position disagree.</summary>
    public required bool SourcesDisagree { get; init; }

    /// <summary>From the first to the newest position, s since 1970 UTC; NaN before the first.</summary>
    public required Stretch Recorded { get; init; }

    /// <summary>Stretches in the air, as the Day tells them.</summary>
    public required IReadOnlyList<Stretch> Airborne { get; init; }

    /// <summary>Times on the ground since the flight began, the last one open while it lasts.</summary>
    public required IReadOnlyList<Stand> Stands { get; init; }

    /// <summary>What deliveries are held against.</summary>
    public required IReadOnlyList<SiteCard> Cards { get; init; }
}

/// <summary>A flight being followed: samples go in, events for the pages come out, deliveries are measured beside it.</summary>
/// <remarks>Safe from any thread. What is heard is heard in order; a look at the newest part never holds it up.</remarks>
public sealed class LiveFlight : ISampleSink, IAsyncDisposable
{
    private const double BehindS = 10;
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(200);
    private readonly Lock gate = new();
    private readonly FlightFollower follower;
    private readonly FlightTimes times = new();
    private readonly CancellationTokenSource ended = new();
    private readonly Task beating;
    private IReadOnlyList<SiteCard> cards;
    private IReadOnlyList<LiveNext> next;
    private Task look = Task.CompletedTask;
    private bool wasLit;

    /// <summary>Begins to follow.</summary>
    public LiveFlight(LiveSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        Setup = setup;
        follower = new(setup.Name, setup.Setup, setup.Settings);
        cards = setup.Cards;
        next = LiveLook.Next(follower.Deliveries, cards);
        beating = Task.Run(BeatOn);
    }

    /// <summary>What is followed.</summary>
    public LiveSetup Setup { get; }

    /// <summary>This machine's clock; that of the record while one is replayed.</summary>
    public TimeProvider Clock { get; set; } = TimeProvider.System;

    /// <summary>Now, s since 1970 UTC.</summary>
    public double NowS => Clock.GetUtcNow().ToUnixTimeMilliseconds() / 1000.0;

    /// <summary>Events for the pages.</summary>
    public LiveEvents Events { get; } = new();

    /// <summary>What a look or a sample went wrong with, if anything did; told on the page.</summary>
    public string? Trouble { get; private set; }

    /// <inheritdoc/>
    public void Take(string source, in FixSample fix, double arrivedS)
    {
        lock (gate)
        {
            follower.Take(source, fix, arrivedS);
            times.Take(follower.NewestS, follower.IsStanding ? follower.StandsSinceS : null, follower.IsStanding ? follower.At : null);
            LookIfDue(arrivedS);
        }
    }

    /// <inheritdoc/>
    public void Take(string source, in ChannelSample sample, double arrivedS)
    {
        lock (gate)
        {
            follower.Take(source, sample, arrivedS);
            LookIfDue(arrivedS);
        }
    }

    /// <inheritdoc/>
    public void Link(string source, bool up, string why, double atS)
    {
        lock (gate)
            follower.Link(source, up, why, atS);
        Events.Publish("link");
    }

    /// <summary>A person says that the aircraft stands on the ground now.</summary>
    public void MarkGround()
    {
        lock (gate)
            follower.MarkGround();
        Events.Publish("ground");
    }

    /// <summary>Whether the cockpit page is lit at this moment.</summary>
    public ScreenLight Light()
    {
        lock (gate)
            return follower.Light(NowS);
    }

    /// <summary>Everything at this moment.</summary>
    public LiveState State()
    {
        lock (gate)
        {
            double now = NowS;
            return new()
            {
                NowS = now,
                NewestS = follower.NewestS,
                Light = follower.Light(now),
                IsStanding = follower.IsStanding,
                KnowsGround = follower.KnowsGround,
                Deliveries = [.. follower.Deliveries.All],
                Next = next,
                Counts = follower.Counts,
                SourcesDisagree = follower.SourcesDisagree,
                Recorded = times.Recorded,
                Airborne = times.Airborne,
                Stands = times.Stands,
                Cards = cards,
            };
        }
    }

    /// <summary>Waits until the look that is under way, if any, is done.</summary>
    public Task LookDone()
    {
        lock (gate)
            return look;
    }

    private void LookIfDue(double arrivedS)
    {
        if (!follower.IsLookDue || !look.IsCompleted)
            return;
        FlightRecord part = follower.Look();
        // What a run before had kept comes in a rush: it is measured before more of it is taken, so that nothing is passed over.
        if (NowS - arrivedS > BehindS)
            Look(part);
        else
            look = Task.Run(() => Look(part));
    }

    private void Look(FlightRecord part)
    {
        try
        {
            IReadOnlyList<SiteCard> against = Setup.NewCards() ?? cards;
            Debrief debrief = LiveLook.Of(part, Setup.Setup, against, ended.Token);
            lock (gate)
            {
                cards = against;
                follower.Take(debrief, part);
                times.Take(debrief);
                next = LiveLook.Next(follower.Deliveries, cards);
                Trouble = null;
            }
            Events.Publish("delivery");
        }
        catch (OperationCanceledException)
        {
            // The program is ending.
        }
#pragma warning disable CA1031 // Whatever a strange feed makes of the mathematics, what is heard goes on being heard.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Trouble = $"The last part of the flight could not be measured ({e.Message}). Recording goes on; it is tried again after the next delivery.";
            Events.Publish("trouble");
        }
    }

    /// <summary>Tells the pages when the light changes, and that there is life while it is lit; goes dark by itself when nothing arrives.</summary>
    private async Task BeatOn()
    {
        using PeriodicTimer timer = new(Beat);
        try
        {
            for (int beat = 0; await timer.WaitForNextTickAsync(ended.Token); beat++)
            {
                bool lit = Light().IsLit;
                if (lit != wasLit)
                    Events.Publish("light");
                else if (beat % 5 == 0)
                    Events.Beat();
                wasLit = lit;
                lock (gate)
                    LookIfDue(NowS);
            }
        }
        catch (OperationCanceledException)
        {
            // The program is ending.
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await ended.CancelAsync();
        await beating;
        await LookDone();
        ended.Dispose();
    }
}
