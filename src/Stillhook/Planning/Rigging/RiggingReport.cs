using UnitsNet;

namespace Stillhook.Planning.Rigging;

/// <summary>One part of the chain under one load.</summary>
/// <param name="Name">Name on the tag.</param>
/// <param name="Kind">Kind of part.</param>
/// <param name="Path">Where in the request.</param>
/// <param name="StaticLoad">What it carries hanging still: load and rigging below it; for a sling the tension of its hardest-pulled leg.</param>
/// <param name="Limit">What it may carry; null without a mark.</param>
/// <param name="Use">Carried over permitted, percent; null without a mark.</param>
/// <param name="Strength">Certified breaking strength over what it carries; null without a certificate.</param>
/// <param name="MaxLoad">Mass of the load alone at which this part reaches its limit; null without a mark, zero when the rigging alone is too much.</param>
/// <param name="Items">What was found, worst first.</param>
public sealed record RiggedPart(
    string Name, PartKind Kind, string Path, Figure StaticLoad, Figure? Limit, Figure? Use, Figure? Strength, Mass? MaxLoad, IReadOnlyList<CheckItem> Items)
{
    /// <summary>Worst of the items.</summary>
    public CheckVerdict Verdict => CheckItem.Worst(Items);

    /// <summary>The worst items in words; 'In order.' when there are none.</summary>
    public string Reason => Items.Count == 0 ? "In order." : string.Join(' ', Items.Where(i => i.Verdict == Verdict).Select(i => i.Text));
}

/// <summary>The rigging under one load, from the hook down.</summary>
/// <param name="LoadNumber">Number of the load.</param>
/// <param name="Parts">Every part with what it carries; the load's own sling last.</param>
/// <param name="Items">What was found of the chain as a whole: swivel, leg angle, class of load, what is missing.</param>
/// <param name="HangingMass">What hangs on the aircraft's hook besides the load: every part but the cargo hook itself.</param>
/// <param name="Weakest">The part that reaches its limit first as the load grows; null when no part has a mark.</param>
/// <param name="MaxLoad">Largest load alone that the marked parts permit; null when no part has a mark. It says nothing of parts that fail for another reason.</param>
public sealed record RiggingReport(
    string LoadNumber, IReadOnlyList<RiggedPart> Parts, IReadOnlyList<CheckItem> Items, Figure HangingMass, RiggedPart? Weakest, Figure? MaxLoad)
{
    /// <summary>Worst of the parts and of the chain.</summary>
    public CheckVerdict Verdict => CheckItem.Worst(Everything);

    /// <summary>All items, of the chain and of its parts, worst first.</summary>
    public IReadOnlyList<CheckItem> Everything => [.. Items.Concat(Parts.SelectMany(p => p.Items)).OrderByDescending(i => i.Verdict).ThenByDescending(i => i.Red)];

    /// <summary>Mass of what hangs besides the load, kg.</summary>
    public double HangingMassKg => HangingMass.Value.Quantity.As(UnitsNet.Units.MassUnit.Kilogram);

    /// <summary>Largest load alone that the weakest part permits, kg; null when no part has a mark.</summary>
    public double? MaxLoadKg => MaxLoad?.Value.Quantity.As(UnitsNet.Units.MassUnit.Kilogram);

    /// <summary>Every figure with its working.</summary>
    public IEnumerable<Figure> Figures =>
        Parts.SelectMany(p => new[] { p.StaticLoad, p.Limit, p.Use, p.Strength }).Append(HangingMass).Append(MaxLoad).OfType<Figure>();
}
