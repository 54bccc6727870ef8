using System.Runtime.Intrinsics;

namespace Stillhook.Physics.Load;

/// <summary>Flies one approach thousands of times, each time with another line, wind, hand and departure from the plan, and says where load and hook came out.</summary>
/// <remarks>
/// Hook: plan + draws × modes + slow and fast wander (<see cref="WanderFilter"/>: ω 0.19 rad/s driven with 4 s of correlation, ω 0.7 rad/s with 0.5 s).
/// Gusts: first order, 5 s of correlation, in both horizontal components. Load: nonlinear spherical pendulum with quadratic drag
/// as <see cref="SlungLoadMotion"/>, weightless line, always taut. It starts in its steady hang for mean wind, entry speed and entry acceleration.
/// Fourth-order Runge-Kutta on the plan's step; error by step length in docs/method/robustness.md.
/// The same input gives the same bits in each run and on each machine, whichever of the two ways it is worked.
/// </remarks>
public static class ApproachBatches
{
    /// <summary>Flies them eight at a time where the machine has registers for that (AVX-512), else one by one: the same bits.</summary>
    /// <param name="plan">The hook's way.</param>
    /// <param name="modes">Departures; as many as <see cref="BatchDraws.Modes"/> has columns.</param>
    /// <param name="draws">What differs from flight to flight.</param>
    /// <param name="gateSteps">Steps of the plan at which the hook is compared with it, in any order.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be, or columns of unequal length.</exception>
    public static BatchOutcome Fly(BatchApproach plan, IReadOnlyList<BatchMode> modes, BatchDraws draws, ReadOnlySpan<int> gateSteps)
    {
        if (!Vector512.IsHardwareAccelerated)
            return FlyScalar(plan, modes, draws, gateSteps); // eight lanes made of narrower ones were slower than this (0.85 times)
        return FlyEights(plan, modes, draws, gateSteps);
    }

    /// <summary>Flies them eight at a time whatever the machine has.</summary>
    internal static BatchOutcome FlyEights(BatchApproach plan, IReadOnlyList<BatchMode> modes, BatchDraws draws, ReadOnlySpan<int> gateSteps)
    {
        (BatchTrack track, BatchOutcome outcome) = Begin(plan, modes, draws, gateSteps);
        EightFlights flights = new(track, draws);
        for (int first = 0; first < draws.Flights; first += 8)
            flights.Fly(first, outcome);
        return outcome;
    }

    /// <summary>Flies them one by one: the same bits, for comparison.</summary>
    /// <inheritdoc cref="Fly(BatchApproach, IReadOnlyList{BatchMode}, BatchDraws, ReadOnlySpan{int})"/>
    public static BatchOutcome FlyScalar(BatchApproach plan, IReadOnlyList<BatchMode> modes, BatchDraws draws, ReadOnlySpan<int> gateSteps)
    {
        (BatchTrack track, BatchOutcome outcome) = Begin(plan, modes, draws, gateSteps);
        OneFlight flights = new(track, draws);
        for (int flight = 0; flight < draws.Flights; flight++)
            flights.Fly(flight, outcome);
        return outcome;
    }

    private static (BatchTrack Track, BatchOutcome Outcome) Begin(BatchApproach plan, IReadOnlyList<BatchMode> modes, BatchDraws draws, ReadOnlySpan<int> gateSteps)
    {
        BatchChecks.Check(plan, modes, draws, gateSteps);
        return (new(plan, modes, gateSteps), new(draws.Flights, gateSteps.Length));
    }
}
