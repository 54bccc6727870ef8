using Stillhook.Adjusting;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Rechecking;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Simulating;

namespace Stillhook;

/// <summary>The job, one short step after the other. Read this first: every step takes values and gives values.</summary>
public static class Job
{
    /// <summary>Height of the load at which hover power is planned to be coming on when nobody planned it, m. Common practice, no source.</summary>
    private const double PowerInHeightWhenNotPlannedM = 10;

    /// <summary>Plan: can each load be lifted, in which order, with how much fuel, on which rigging, and what limits it.</summary>
    public static LiftPlan Plan(LiftRequest request, PlanOptions options) => Planner.Plan(request, options);

    /// <summary>Try: what another order of a plan's loads comes to, and what breaks first.</summary>
    /// <param name="plan">A plan that has an order.</param>
    /// <param name="order">Numbers of the loads in the order to be tried.</param>
    public static TriedOrder Try(LiftPlan plan, IReadOnlyList<string> order) => Planner.Try(plan, order);

    /// <summary>Approach: where the load should go, and the marks, power-in and reject gates to fly it by.</summary>
    /// <param name="request">The job.</param>
    /// <param name="plan">Its lift plan, or null when none could be made.</param>
    /// <param name="options">Which load and site.</param>
    public static ApproachPlan Approach(LiftRequest request, LiftPlan? plan, ApproachOptions options) => ApproachPlanner.Plan(request, plan, options);

    /// <summary>Brief: the cards of pilot, load master, receiver and crew, each with the figures that its reader can use.</summary>
    /// <param name="request">The job.</param>
    /// <param name="plan">Its lift plan.</param>
    /// <param name="approaches">Approaches that are briefed.</param>
    /// <param name="issue">When and by whom it is issued.</param>
    public static Brief Brief(LiftRequest request, LiftPlan plan, IReadOnlyList<BriefedApproach> approaches, BriefIssue issue) => Briefer.Brief(request, plan, approaches, issue);

    /// <summary>Re-check: what changed since the plan was made.</summary>
    public static Recheck Recheck(LiftRequest request, PlanOptions options, Shift shift) => Rechecker.Compare(request, options, shift);

    /// <summary>Record: several records of one day become one.</summary>
    public static FlightRecord Record(IReadOnlyList<FlightRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        return records.Count == 1 ? records[0] : RecordJoiner.Join(records);
    }

    /// <summary>Debrief: the rotations, each delivery measured, the load's swing with its band.</summary>
    public static Debrief Debrief(FlightRecord record, LiftSetup setup) => Debriefer.Debrief(record, setup);

    /// <summary>Adjust: one or two changes for the next approach within the limits the operator entered, or the same again.</summary>
    public static NextApproach Next(Debrief debrief)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        return Next(debrief, AdjustLimits.From(debrief.Setup));
    }

    /// <summary>Adjust: one or two changes for the next approach, or the same again.</summary>
    public static NextApproach Next(Debrief debrief, AdjustLimits limits)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        return Next(debrief.Rotations, debrief.Setup, limits);
    }

    /// <summary>Adjust: one or two changes for the next approach from rotations in order of time, of one flight or of several joined.</summary>
    /// <param name="rotations">Rotations measured with the setup, oldest first.</param>
    /// <param name="setup">The crew's figures with the marks of the plan.</param>
    /// <param name="limits">What no advice may pass; null takes those of the setup.</param>
    public static NextApproach Next(IReadOnlyList<Rotation> rotations, LiftSetup setup, AdjustLimits? limits = null)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return Adjuster.Next(rotations, limits ?? AdjustLimits.From(setup), new()
        {
            Plan = ApproachTargets.From(setup.Gates, setup.Approach?.PowerIn?.LoadHeightM ?? PowerInHeightWhenNotPlannedM),
            Recon = setup.Recon,
            Clock = setup.Clock,
            ContactLengthM = setup.ContactLengthM,
            SwingPeriodS = 2 * Math.PI * Math.Sqrt(setup.SwingLengthM / Gravity.Standard),
        });
    }

    /// <summary>Adjust: the next approach at a site from all that is kept of a day since its card was issued.</summary>
    public static SiteNext Next(SiteCard card, IReadOnlyList<KeptDelivery> day, LiftRequest? job, Func<double, DateTimeOffset> clock) => DayNext.Of(card, day, job, clock);

    /// <summary>Adjust: what setting, temperature and wind as read now change, and what was not read again.</summary>
    public static ConditionsNow Conditions(LiftRequest request, ApproachOptions options, Shift shift) => ConditionsNow.Compare(request, options, shift);

    /// <summary>Day: the day sheet of all that is kept of a working day; for a chief pilot, maintenance and the office to read and correct.</summary>
    /// <param name="work">What is kept of the day.</param>
    /// <param name="rules">Windows, tolerances, rules; null for the defaults.</param>
    public static DaySheet Day(DayWork work, DayRules? rules = null) => DayReporter.Report(work, rules);

    /// <summary>Simulate: a day flown through the full model, with its truth.</summary>
    public static SimulatedDay Simulate(DayScenario scenario, ulong seed) => DaySimulator.Fly(scenario, seed);
}
