using System.Globalization;
using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Planning.Rigging;

/// <summary>The parts of one load's chain from the hook down, and the figures of each.</summary>
internal sealed class RiggingChain
{
    private readonly LiftRequest request;
    private readonly FigureInput load;
    private readonly string key;
    private readonly Attachment? attachment;
    private readonly string attachmentPath;
    private readonly List<Link> links = [];

    public RiggingChain(LiftRequest request, PlannedLoad load, string loadPath, FigureInput loadInput)
    {
        this.request = request;
        this.load = loadInput;
        key = $"rigging.{load.Number}";
        attachment = load.Attachment;
        attachmentPath = loadPath + ".attachment";
        HashSet<string> used = ["max", "mass"];
        for (int i = 0; i < request.Rigging.Count; i++)
            links.Add(new(request.Rigging[i], string.Create(CultureInfo.InvariantCulture, $"rigging[{i}]"), FigureKey.Unique(request.Rigging[i].Name, used), IsSling: false));
        if (attachment?.Sling is { } sling)
            links.Add(new(sling, attachmentPath + ".sling", FigureKey.Unique(sling.Name, used), IsSling: true));
    }

    private sealed record Link(RiggingPart Part, string Path, string Key, bool IsSling)
    {
        public double MassKg => Part.Mass?.Kilograms ?? 0;

        public FigureInput MassInput => Part.Mass is null
            ? new($"{Part.Name}, not entered and counted as nothing", Amount.Kilograms(0), InputFrom.Default, Path + ".mass")
            : new(Part.Name, Amount.Kilograms(MassKg), InputFrom.JobFile, Path + ".mass");
    }

    private double LoadKg => load.Value.Quantity.As(MassUnit.Kilogram);

    public IEnumerable<RiggedPart> Parts() => links.Select((link, i) => Rig(link, i));

    /// <summary>What hangs besides the load. The cargo hook belongs to the weighed aircraft.</summary>
    public Figure HangingMass()
    {
        Link[] hanging = [.. links.Where(l => l.Part.Kind != PartKind.CargoHook)];
        string missing = string.Join(", ", hanging.Where(l => l.Part.Mass is null).Select(l => l.Part.Name));
        return new($"{key}.mass", "Rigging that hangs besides the load", Amount.Kilograms(hanging.Sum(l => l.MassKg)), "sum of the parts below the aircraft's hook",
            [.. hanging.Select(l => l.MassInput)], CheckItem.CommonPractice, missing.Length > 0 ? $"Mass not entered: {missing}. The true figure is higher." : "");
    }

    public Figure? MaxLoad(IReadOnlyList<RiggedPart> parts)
    {
        RiggedPart[] marked = [.. parts.Where(p => p.MaxLoad is not null)];
        if (marked.Length == 0)
            return null;
        return new($"{key}.max", "Largest load alone that the rigging permits", Amount.Kilograms(marked.Min(p => p.MaxLoad!.Value.Kilograms)),
            "smallest over the parts of (what it may carry - rigging below it); for the sling, what one leg may carry over that leg's share",
            [.. marked.Select(p => new FigureInput($"load at which {p.Name} is at its limit", Amount.Kilograms(p.MaxLoad!.Value.Kilograms), InputFrom.Figure, p.Limit!.Key))],
            "STATICS", parts.Count > marked.Length ? "Parts without a mark are not in it." : "");
    }

    private RiggedPart Rig(Link link, int place)
    {
        Link[] below = [.. links.Skip(place + 1)];
        double belowKg = below.Sum(l => l.MassKg);
        LegTension? legs = link.IsSling ? LegTension.Of(attachment!, attachmentPath, request.Policy) : null;
        double ratio = legs?.Ratio ?? 1, carriedKg = (LoadKg + belowKg) * ratio;
        Figure carried = new($"{key}.{link.Key}.load", legs is null ? $"Hangs on {link.Part.Name}" : $"Tension of one leg of {link.Part.Name}", Amount.Kilograms(carriedKg),
            legs?.Formula ?? "load + rigging below this part", [load, .. below.Select(l => l.MassInput), .. legs?.Inputs ?? []], "STATICS", legs?.Note ?? "");

        PartLimit limit = PartLimit.Of(link.Part, link.Path, $"{key}.{link.Key}", carried, carriedKg, request.Policy);
        List<CheckItem> items = [.. legs?.Items ?? [], .. limit.Items, Inspection.Of(link.Part, link.Path, request.Date)];
        if (RingFit(link, place) is { } ring)
            items.Add(ring);
        if (link.IsSling && SlingTag.Of(attachment!, link.Part, link.Path, LoadKg) is { } tag)
            items.Add(tag);
        Mass? max = limit.PermittedKg is { } kg ? Mass.FromKilograms(Math.Max(0, kg / ratio - belowKg)) : null;
        return new(link.Part.Name, link.Part.Kind, link.Path, carried, limit.Limit, limit.Use, limit.Strength, max, [.. items.OrderByDescending(i => i.Verdict).ThenByDescending(i => i.Red)]);
    }

    private CheckItem? RingFit(Link link, int place)
    {
        bool underHook = place == 0 || links[place - 1].Part.Kind is PartKind.CargoHook or PartKind.RemoteHook;
        if (link.Part.Kind != PartKind.Ring || !underHook)
            return null;
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, "rigging-ring-fit", link.Path + ".fitsHookAbove", link.Part.Name, text, "ATSB-AB-2020-023");
        return link.Part.FitsHookAbove switch
        {
            true => Item(CheckVerdict.Passes, "Checked by hand that it fits the hook above it."),
            false => Item(CheckVerdict.Fails, "Does not fit the hook above it."),
            null => Item(CheckVerdict.ToConfirm, "Confirm by hand that it fits the hook above it and can't ride over beam or keeper."),
        };
    }
}
