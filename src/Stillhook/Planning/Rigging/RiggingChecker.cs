using System.Globalization;
using UnitsNet;

namespace Stillhook.Planning.Rigging;

/// <summary>What every part between the aircraft's hook and a load carries, and whether it may.</summary>
/// <remarks>Loads hanging still; docs/method/rigging.md has the formulas, the defaults and what is not looked at.</remarks>
public static class RiggingChecker
{
    /// <summary>Checks the chain under one load of the list.</summary>
    /// <param name="request">The job: rigging, loads, day and policy are read.</param>
    /// <param name="loadIndex">Place of the load in the list, from 0.</param>
    /// <param name="countedMass">Mass of the load as the plan counts it, with its margin; the entered mass when null.</param>
    /// <param name="countedMassKey">Key of the figure that says how it was counted.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such load, or a counted mass that is not above 0.</exception>
    public static RiggingReport Check(LiftRequest request, int loadIndex, Mass? countedMass = null, string countedMassKey = "")
    {
        ArgumentNullException.ThrowIfNull(request);
        if (loadIndex < 0 || loadIndex >= request.Loads.Count)
            throw new ArgumentOutOfRangeException(nameof(loadIndex), loadIndex, "The load is one of the list.");
        if (countedMass is { } mass && !(mass.Kilograms > 0 && double.IsFinite(mass.Kilograms)))
            throw new ArgumentOutOfRangeException(nameof(countedMass), mass.Kilograms, "Counted mass is above 0 kg.");

        PlannedLoad load = request.Loads[loadIndex];
        string loadPath = string.Create(CultureInfo.InvariantCulture, $"loads[{loadIndex}]");
        FigureInput loadInput = countedMass is { } counted
            ? new($"load {load.Number} as counted", Amount.Kilograms(counted.Kilograms), InputFrom.Figure, countedMassKey)
            : new($"load {load.Number}", Amount.Kilograms(load.Mass.Kilograms), InputFrom.JobFile, loadPath + ".mass");
        RiggingChain chain = new(request, load, loadPath, loadInput);
        RiggedPart[] parts = [.. chain.Parts()];
        RiggedPart? weakest = parts.Where(p => p.MaxLoad is not null).MinBy(p => p.MaxLoad!.Value.Kilograms);
        return new(load.Number, parts, [.. ChainItems.Of(request, load, loadPath).OrderByDescending(i => i.Verdict)], chain.HangingMass(), weakest, chain.MaxLoad(parts));
    }
}
