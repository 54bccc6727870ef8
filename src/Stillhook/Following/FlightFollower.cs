using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Motion;
using Stillhook.Recording;
using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>Follows a flight sample by sample: where it is in the rotation, whether the cockpit page may be lit, and when a delivery is to be measured.</summary>
/// <remarks>
/// Method, thresholds and what is promised: docs/method/following.md. Not for use from two threads at once. Deliveries themselves are measured by
/// <see cref="Debriefer"/> from <see cref="Look"/>, the same code as for files, on whichever thread; the result comes back by <see cref="Take(Debrief, FlightRecord)"/>.
/// </remarks>
public sealed class FlightFollower : ISampleSink
{
    /// <summary>Noise of positions and speeds until the record tells better, m and m/s (1 sigma). Common practice, no source.</summary>
    private const double PositionNoiseM = 1, SpeedNoiseMs = 0.3, CourseMeansNothingMs = 1;

    /// <summary>A slow place further than this from a site is none of the site's; a contact may lie this long before the hook is slow; shorter ways back than this are not judged. Common practice, no source.</summary>
    private const double AtSiteM = 150, BeforeSlowS = 30, LeastWayM = 200;

    private readonly LiftSetup setup;
    private readonly FollowSettings settings;
    private readonly LiveRecord record;
    private readonly FeedWatch feed;
    private readonly HookWatch hook;
    private readonly VisitWatch visits;
    private readonly GroundWatch ground;
    private readonly PositionChoice positions;
    private readonly MotionFilter horizontal = new(2, TrackBuilder.HorizontalNoise, MotionCovariance.FromDeviations(PositionNoiseM, 60, 3));
    private readonly MotionFilter vertical = new(1, TrackBuilder.VerticalNoise, MotionCovariance.FromDeviations(PositionNoiseM, 60, 3));
    private readonly LiveDeliveries deliveries;
    private LocalFrame? frame;
    private Enu place;
    private double startS = double.NaN;
    private double highSinceS = double.NaN;
    private bool due;

    /// <summary>Begins a flight.</summary>
    /// <param name="name">Name for people.</param>
    /// <param name="setup">What the crew said of the lift.</param>
    /// <param name="settings">The operator's heights and speeds; null for the defaults.</param>
    public FlightFollower(string name, LiftSetup setup, FollowSettings? settings = null)
    {
        ArgumentNullException.ThrowIfNull(setup);
        this.setup = setup;
        this.settings = settings ?? new();
        record = new(name, this.settings.KeepS);
        feed = new(this.settings.StaleS);
        hook = new(this.settings.StaleS);
        visits = new(DebriefSettings.Default);
        ground = new(this.settings.StandS);
        positions = new(this.settings.StaleS);
        deliveries = new(this.settings);
    }

    /// <summary>Deliveries so far.</summary>
    public LiveDeliveries Deliveries => deliveries;

    /// <summary>Time of the newest position in order, s since 1970 UTC; NaN before the first.</summary>
    public double NewestS => feed.NewestS;

    /// <summary>Positions that were not used and why, counted.</summary>
    public FeedCounts Counts { get; private set; }

    /// <summary>Whether two sources of position disagree now.</summary>
    public bool SourcesDisagree => positions.Disagree;

    /// <summary>Whether the aircraft stands on known ground.</summary>
    public bool IsStanding => ground.IsStanding;

    /// <summary>Since when it stands, s since 1970 UTC; of no meaning while it doesn't.</summary>
    public double StandsSinceS => ground.SinceS;

    /// <summary>Where the aircraft is by the newest position; null before the first.</summary>
    public Place? At
    {
        get
        {
            if (frame is null)
                return null;
            (double latitude, double longitude, _) = frame.ToGeodetic(place with { Up = 0 });
            return new(latitude, longitude);
        }
    }

    /// <summary>Whether any ground is known by its height.</summary>
    public bool KnowsGround => ground.AnyKnown;

    /// <inheritdoc/>
    public void Take(string source, in FixSample fix, double arrivedS)
    {
        if (!(double.IsFinite(fix.TimeS) && Math.Abs(fix.LatitudeDeg) <= 90 && Math.Abs(fix.LongitudeDeg) <= 180))
        {
            Counts = Counts with { Unusable = Counts.Unusable + 1 };
            return;
        }
        PositionUse use = positions.Choose(source, fix, arrivedS);
        if (use == PositionUse.Spare)
        {
            if (positions.Disagree)
                feed.Doubt(arrivedS);
            return;
        }
        if (use == PositionUse.FirstOfAnother)
            Interrupt(arrivedS);
        FeedFault fault = feed.Take(fix.TimeS, arrivedS);
        Counts = Counts.With(fault);
        if (fault is FeedFault.None or FeedFault.Backwards)
            record.Add(fix);
        if (fault == FeedFault.None)
            Move(fix);
        else if (fault != FeedFault.Repeated)
            highSinceS = double.NaN;
    }

    /// <inheritdoc/>
    public void Take(string source, in ChannelSample sample, double arrivedS)
    {
        if (!(double.IsFinite(sample.TimeS) && double.IsFinite(sample.Value)))
            return;
        record.Add(sample);
        due |= hook.Take(sample);
    }

    /// <inheritdoc/>
    public void Link(string source, bool up, string why, double atS)
    {
        if (up || !positions.IsUsed(source))
            return;
        record.Break();
        Interrupt(atS);
    }

    /// <summary>A person says that the aircraft stands on the ground here, now. Nothing when no position is known.</summary>
    public void MarkGround()
    {
        if (frame is not null)
            ground.Mark(place);
    }

    /// <summary>Whether deliveries are to be looked for now: a load came off, the hook climbed away from a low place, or the last one is to be measured again.</summary>
    public bool IsLookDue => due || feed.NewestS >= deliveries.NextLookS;

    /// <summary>The newest part of the flight, to be debriefed on any thread; the next look is due when something happens again.</summary>
    public FlightRecord Look()
    {
        due = false;
        return record.ToRecord();
    }

    /// <summary>Takes the debrief of a look.</summary>
    /// <param name="look">Its debrief.</param>
    /// <param name="part">The look itself.</param>
    /// <returns>The deliveries that are new.</returns>
    public IReadOnlyList<LiveDelivery> Take(Debrief look, FlightRecord part)
    {
        ArgumentNullException.ThrowIfNull(part);
        if (part.Count == 0)
            return [];
        double first = part.TimeS.Min(), newest = part.TimeS.Max();
        return deliveries.Take(look, MeasuredFlight.LiftsOf(look, part), first > startS ? first : double.NegativeInfinity, newest);
    }

    /// <summary>Whether the cockpit page may be lit.</summary>
    /// <param name="nowS">This machine's clock, s since 1970 UTC.</param>
    public ScreenLight Light(double nowS)
    {
        if (double.IsNaN(feed.NewestS))
            return new(LightReason.NothingYet);
        if (feed.IsInDoubt(nowS))
            return new(LightReason.FeedInDoubt);
        if (!feed.IsFresh(nowS))
            return new(LightReason.TooOld);
        if (ground.IsStanding)
            return new(LightReason.OnTheGround);
        if (hook.IsLoaded(nowS))
            return new(LightReason.Loaded);
        if (visits.IsSlow)
            return new(LightReason.Slow);
        if (!IsEmptyLeg(nowS))
            return new(LightReason.HookNotKnown);
        return feed.NewestS - highSinceS >= settings.HoldS ? new(LightReason.EmptyLeg) : new(LightReason.TooLowOrSlow);
    }

    private void Move(in FixSample fix)
    {
        frame ??= new(fix.LatitudeDeg, fix.LongitudeDeg, double.IsFinite(fix.AltitudeM) ? fix.AltitudeM : 0);
        if (double.IsNaN(startS))
            startS = fix.TimeS;
        if (feed.UnbrokenSinceS == fix.TimeS)
            Restart();
        Enu at = frame.ToEnu(fix.LatitudeDeg, fix.LongitudeDeg, frame.HeightM);
        bool speedKnown = double.IsFinite(fix.GroundSpeedMs) && (double.IsFinite(fix.CourseDeg) || fix.GroundSpeedMs < CourseMeansNothingMs);
        (double s, double c) = speedKnown && double.IsFinite(fix.CourseDeg) ? Math.SinCos(double.DegreesToRadians(fix.CourseDeg)) : (0, 0);
        double speedNoise = fix.GroundSpeedMs < CourseMeansNothingMs ? CourseMeansNothingMs : SpeedNoiseMs;
        horizontal.Take(fix.TimeS, [at.East, at.North], PositionNoiseM * PositionNoiseM,
            [fix.GroundSpeedMs * s, fix.GroundSpeedMs * c], speedKnown ? speedNoise * speedNoise : double.PositiveInfinity);
        double up = double.NaN;
        if (double.IsFinite(fix.AltitudeM))
        {
            vertical.Take(fix.TimeS, [fix.AltitudeM - frame.HeightM], PositionNoiseM * PositionNoiseM, [fix.ClimbMs],
                double.IsFinite(fix.ClimbMs) ? SpeedNoiseMs * SpeedNoiseMs : double.PositiveInfinity);
            up = vertical.Position(0);
        }
        place = new(horizontal.Position(0), horizontal.Position(1), up);
        double speedMs = Math.Sqrt(Math.Pow(horizontal.Velocity(0), 2) + Math.Pow(horizontal.Velocity(1), 2));
        due |= visits.Take(fix.TimeS, place, speedMs);
        ground.Take(fix.TimeS, place, speedMs);
        bool high = speedMs >= settings.LitOver.MetersPerSecond && HeightOverSitesM() >= settings.LitAbove.Meters;
        highSinceS = !high ? double.NaN : double.IsNaN(highSinceS) ? fix.TimeS : highSinceS;
    }

    /// <summary>Height of the hook over the straight line between the grounds of the last two low places, m; NaN, which is no height, before there is one.</summary>
    private double HeightOverSitesM()
    {
        if (visits.Last is not { } last)
            return double.NaN;
        Enu from = last.Lowest, to = (visits.Before ?? last).Lowest;
        double east = to.East - from.East, north = to.North - from.North, squared = east * east + north * north;
        double share = squared > 0 ? Math.Clamp(((place.East - from.East) * east + (place.North - from.North) * north) / squared, 0, 1) : 0;
        // At its lowest the hook was the length of line, rigging and load over the ground.
        return place.Up - (from.Up + share * (to.Up - from.Up) - setup.ContactLengthM);
    }

    /// <summary>Whether the load came off at the last slow place, and nothing can have been hooked on since.</summary>
    private bool IsEmptyLeg(double nowS)
    {
        if (visits.Last is not { } last || double.IsNaN(last.ToS))
            return false;
        if (hook.HasCell(nowS))
            return IsAt(last, hook.UnloadedS) && hook.IsEmpty(nowS);
        // A hook is also opened to put a ring in: without a load cell only an opening at a delivery site tells that it is empty.
        if (!IsDeliverySite(last.Lowest))
            return false;
        return IsAt(last, hook.OpenedS) || (settings.LitByMotionAlone && IsPastHalfWayBack(last));
    }

    private static bool IsAt(SlowPlace slow, double timeS) => timeS >= slow.FromS && timeS <= slow.ToS;

    /// <summary>Whether a place is a delivery site of the job, and nearer to it than to any other site of the job.</summary>
    private bool IsDeliverySite(Enu at)
    {
        double Away(KnownSite s) => (frame!.ToEnu(s.LatitudeDeg, s.LongitudeDeg, frame.HeightM) - at).Horizontal;
        return setup.Sites.MinBy(Away) is { Use: SiteUse.Delivery } nearest && Away(nearest) <= AtSiteM;
    }

    /// <summary>By motion alone: the last slow place was measured as a delivery, more than once, and more than half of the way back to the pick-up is flown.</summary>
    private bool IsPastHalfWayBack(SlowPlace last)
    {
        LiveDelivery? delivery = deliveries.All.LastOrDefault(d => !d.Withdrawn && d.MeasuredAgain > 1 && d.Rotation.Confidence >= Confidence.Medium);
        if (delivery is null || !IsAt(last with { FromS = last.FromS - BeforeSlowS }, delivery.Rotation.DeliveryTimeS!.Value)
            || delivery.Rotation is not { PickupEnu: { } pickUp, DeliveryEnu: { } spot })
            return false;
        double whole = (pickUp - spot).Horizontal;
        return (place - last.Lowest).Horizontal > whole / 2 && whole > LeastWayM;
    }

    private void Interrupt(double atS)
    {
        feed.Doubt(atS);
        Restart();
    }

    /// <summary>After a break: what happened meanwhile is not known.</summary>
    private void Restart()
    {
        horizontal.Restart();
        vertical.Restart();
        visits.Restart();
        ground.Restart();
        hook.Forget();
        highSinceS = double.NaN;
    }
}

/// <summary>Positions that were not used, by reason.</summary>
/// <param name="Unusable">Without a time or a place.</param>
/// <param name="Repeated">The time of the one before once more.</param>
/// <param name="Backwards">Older than the one before: kept in the record, but the page stays dark for a while.</param>
/// <param name="ClockJumps">Far from the clock that the source kept so far.</param>
public readonly record struct FeedCounts(long Unusable, long Repeated, long Backwards, long ClockJumps)
{
    internal FeedCounts With(FeedFault fault) => fault switch
    {
        FeedFault.Repeated => this with { Repeated = Repeated + 1 },
        FeedFault.Backwards => this with { Backwards = Backwards + 1 },
        FeedFault.ClockJump => this with { ClockJumps = ClockJumps + 1 },
        _ => this,
    };
}
