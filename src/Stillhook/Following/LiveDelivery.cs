using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>A delivery measured while the flight goes on.</summary>
public sealed record LiveDelivery
{
    /// <summary>1, 2, 3 ... in the order they were first found; a number is never given twice.</summary>
    public required int Number { get; init; }

    /// <summary>As measured last.</summary>
    public required Rotation Rotation { get; init; }

    /// <summary>As it would be kept, with the mass by the load cell; without the number of its load.</summary>
    public required KeptLift Lift { get; init; }

    /// <summary>Frame of the rotation's places.</summary>
    public required LocalFrame Frame { get; init; }

    /// <summary>Time of the newest position when it was first measured, s since 1970 UTC.</summary>
    public required double FirstMeasuredS { get; init; }

    /// <summary>Time of the newest position when it was measured last, s since 1970 UTC.</summary>
    public required double MeasuredAtS { get; init; }

    /// <summary>How often it was measured again with what came since.</summary>
    public int MeasuredAgain { get; init; }

    /// <summary>Whether its measures are final: what still comes can only show that it was no delivery.</summary>
    public bool Settled { get; init; }

    /// <summary>Whether a later look found that it was none.</summary>
    public bool Withdrawn { get; init; }

    // With so much of what came after the touch the measures lie within 0.3 s and 0.3 m of the file's: docs/method/following.md.
    private const double NearlyS = 20;

    /// <summary>How far it is settled, in words.</summary>
    public string Standing =>
        Withdrawn ? "taken back: what came later shows no delivery here"
        : Rotation.Confidence == Confidence.Low ? "unsure: pick-up and delivery can't be told apart yet; name the sites in the job"
        : Settled ? "settled"
        : MeasuredAtS - Rotation.DeliveryTimeS >= NearlyS ? "may still move, by up to 0.3 s and 0.3 m"
        : $"{(MeasuredAgain > 0 ? "measured again" : "first measure")}; may still move, contact and hover by seconds";
}

/// <summary>The deliveries of a flight so far, put together from one look at its newest part after another.</summary>
public sealed class LiveDeliveries(FollowSettings settings)
{
    // Design values, common practice, no source.
    private const double SameS = 25;           // two contacts closer than this are one
    private const double WholeInsideS = 600;   // a part of the flight shows a rotation whole from this far after its beginning
    private readonly List<LiveDelivery> all = [];
    private double lastLookS = double.NegativeInfinity;

    /// <summary>All so far in order of time, also those taken back.</summary>
    public IReadOnlyList<LiveDelivery> All => all;

    /// <summary>Rotations that stand, in order of time, numbered as shown.</summary>
    public IReadOnlyList<Rotation> Rotations => [.. all.Where(d => !d.Withdrawn).Select(d => d.Rotation with { Number = d.Number })];

    /// <summary>When the deliveries are to be measured again, s since 1970 UTC; infinite when all are settled.</summary>
    public double NextLookS => all.Where(d => !d.Settled)
        .SelectMany(d => settings.MeasureAgainAfterS.Select(after => d.Rotation.DeliveryTimeS!.Value + after))
        .Where(t => t > lastLookS).DefaultIfEmpty(double.PositiveInfinity).Min();

    /// <summary>Takes in a look at the newest part of the flight.</summary>
    /// <param name="look">The debrief of the part.</param>
    /// <param name="lifts">Its lifts, one a rotation.</param>
    /// <param name="fromS">Where the part begins, s since 1970 UTC, what lies before or soon after is not touched; negative infinity for the whole flight.</param>
    /// <param name="untilS">Its newest position, s since 1970 UTC.</param>
    /// <returns>The deliveries that are new.</returns>
    public IReadOnlyList<LiveDelivery> Take(Debrief look, IReadOnlyList<KeptLift> lifts, double fromS, double untilS)
    {
        ArgumentNullException.ThrowIfNull(look);
        ArgumentNullException.ThrowIfNull(lifts);
        lastLookS = untilS;
        List<LiveDelivery> fresh = [];
        HashSet<int> met = [];
        foreach ((Rotation rotation, KeptLift lift) in look.Rotations.Zip(lifts).Where(r => r.First.DeliveryTimeS is not null))
        {
            int at = all.FindIndex(d => Math.Abs(d.Rotation.DeliveryTimeS!.Value - rotation.DeliveryTimeS!.Value) < SameS);
            if (at >= 0 && all[at].Settled)
            {
                met.Add(all[at].Number);
                // What was carried is told best once the empty leg behind it is whole; at the beginning of a part the empty legs before are missing.
                bool weighed = lift.LoadMeasured && rotation.DeliveryTimeS > fromS + WholeInsideS;
                KeptLift kept = weighed ? all[at].Lift with { LoadKg = lift.LoadKg, LoadMeasured = true } : all[at].Lift;
                all[at] = all[at] with { Withdrawn = false, Rotation = all[at].Rotation with { Confidence = rotation.Confidence }, Lift = kept with { Confidence = rotation.Confidence } };
            }
            else if (at >= 0)
            {
                met.Add(all[at].Number);
                all[at] = all[at] with { Rotation = rotation, Lift = lift with { Number = all[at].Number }, Frame = look.Track!.Frame, MeasuredAtS = untilS, MeasuredAgain = all[at].MeasuredAgain + 1, Withdrawn = false, Settled = IsSettled(rotation, untilS) };
            }
            else
            {
                LiveDelivery delivery = new()
                {
                    Number = all.Count + 1, Rotation = rotation, Lift = lift with { Number = all.Count + 1 }, Frame = look.Track!.Frame, FirstMeasuredS = untilS, MeasuredAtS = untilS, Settled = IsSettled(rotation, untilS),
                };
                met.Add(delivery.Number);
                all.Add(delivery);
                fresh.Add(delivery);
            }
        }
        for (int i = 0; i < all.Count; i++)
        {
            if (!met.Contains(all[i].Number) && all[i].Rotation.DeliveryTimeS > fromS + WholeInsideS)
                all[i] = all[i] with { Withdrawn = true, Settled = all[i].Settled || IsSettled(all[i].Rotation, untilS) };
        }
        all.Sort((a, b) => a.Rotation.DeliveryTimeS!.Value.CompareTo(b.Rotation.DeliveryTimeS!.Value));
        return fresh;
    }

    private bool IsSettled(Rotation rotation, double untilS) => untilS - rotation.DeliveryTimeS >= settings.MeasureAgainAfterS[^1];
}
