using Stillhook.Recording;

namespace Stillhook.Planning.Checking;

/// <summary>Checks that a request makes sense: what contradicts itself, what names something that isn't there, what is refused.</summary>
public static class RequestCheck
{
    /// <summary>What is wrong in any request, planned or only debriefed, in one go.</summary>
    public static IReadOnlyList<RequestFinding> Check(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return [.. AircraftFindings(request), .. SiteCheck.Findings(request), .. LineFindings(request), .. LoadCheck.Findings(request), .. PrecedenceCheck.Findings(request.Loads), .. DayOrderCheck.Findings(request), .. GateFindings(request), .. RefusedWork.Findings(request)];
    }

    /// <summary>What a plan needs beyond that.</summary>
    public static IReadOnlyList<RequestFinding> ForPlan(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return [.. PlanNeeds.Findings(request)];
    }

    internal static RequestFinding Error(string code, string path, string what, string mend) => new(Severity.Error, code, path, what, mend);

    internal static RequestFinding Warning(string code, string path, string what, string mend) => new(Severity.Warning, code, path, what, mend);

    private static IEnumerable<RequestFinding> AircraftFindings(LiftRequest request)
    {
        if (request.Aircraft is not { } aircraft)
            return [];
        return
        [
            .. aircraft.HoverOutOfGroundEffect is { } outOf ? HoverChartCheck.Findings(outOf, "aircraft.hoverOutOfGroundEffect") : [],
            .. aircraft.HoverInGroundEffect is { } inside ? HoverChartCheck.Findings(inside, "aircraft.hoverInGroundEffect") : [],
            .. aircraft.HoverTorque is { } torque ? TorqueChartCheck.Findings(torque, "aircraft.hoverTorque") : [],
        ];
    }

    private static IEnumerable<RequestFinding> GateFindings(LiftRequest request)
    {
        if (request is { Gates.Count: > 0, FlyEnteredGates: null })
            yield return Warning("gates-not-flown", "gates", "Gates are entered, and nothing says that they are to be flown: deliveries are held against the issued card, else the planned approach.",
                "Write flyEnteredGates: true to fly them, false to keep them unused, or take them out.");
        if (request is { Gates.Count: 0, FlyEnteredGates: true })
            yield return Warning("no-gates-to-fly", "flyEnteredGates", "The entered gates are to be flown, and none are entered.", "Enter them under gates, or take flyEnteredGates out.");
    }

    private static IEnumerable<RequestFinding> LineFindings(LiftRequest request)
    {
        if (request.Line is { Length: null })
            yield return Warning("line-without-length", "line.length", "The line has no length.", "Write its own length, from hook to hook; a debrief assumes 30 m, a plan is refused.");
    }
}
