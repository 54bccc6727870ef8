namespace Stillhook.Planning.Rigging;

/// <summary>What there is to say of the chain as a whole.</summary>
internal static class ChainItems
{
    public static IEnumerable<CheckItem> Of(LiftRequest request, PlannedLoad load, string loadPath)
    {
        string subject = "load " + load.Number;
        if (load.Class is LoadClass.C or LoadClass.D)
            yield return new(CheckVerdict.Fails, "rigging-load-class", loadPath + ".class", subject,
                load.Class == LoadClass.C ? "Class C, still touching ground or water: outside what is planned here." : "Class D, people or special approval: outside what is planned here.", "14CFR-1.1");
        if (load.Class == LoadClass.A)
            yield return new(CheckVerdict.ToConfirm, "rigging-load-class", loadPath + ".class", subject, "Class A is fixed to the aircraft and hangs on no line: confirm the class.", "14CFR-1.1");
        foreach (CheckItem item in Missing(request, load, loadPath, subject))
            yield return item;
        if (NeedsSwivel(load) is { } why && !request.Rigging.Append(load.Attachment?.Sling).Any(p => p?.Kind == PartKind.Swivel))
            yield return new(CheckVerdict.ToConfirm, "rigging-swivel", "rigging", subject, $"{why}, and no swivel is in the chain: fit one.", "FAA-SAFO-13010");
    }

    private static IEnumerable<CheckItem> Missing(LiftRequest request, PlannedLoad load, string loadPath, string subject)
    {
        if (request.Rigging.Count == 0)
            yield return new(CheckVerdict.ToConfirm, "rigging-missing", "rigging", subject, "No part between the aircraft's hook and the sling is entered: nothing of it is judged.", "EASA-SIB-2021-02");
        if (load.Attachment is null)
            yield return new(CheckVerdict.ToConfirm, "rigging-attachment-missing", loadPath + ".attachment", subject, "How the load hangs is not entered: its sling is not judged.", "WAC-296-45-67537");
        else if (load.Attachment.Sling is null)
            yield return new(CheckVerdict.ToConfirm, "rigging-sling-missing", loadPath + ".attachment.sling", subject, "The sling is not entered: its mark and inspection are not judged.", "WAC-296-45-67537");
        string[] unweighed = [.. request.Rigging.Where(p => p.Kind != PartKind.CargoHook).Append(load.Attachment?.Sling).Where(p => p is { Mass: null }).Select(p => p!.Name)];
        if (unweighed.Length > 0)
            yield return new(CheckVerdict.ToConfirm, "rigging-mass-missing", "rigging", subject, $"Mass not entered and counted as nothing: {string.Join(", ", unweighed)}.", CheckItem.CommonPractice);
    }

    private static string? NeedsSwivel(PlannedLoad load) => load switch
    {
        { Spins: true } => "The load spins",
        { Shape: LoadShape.Bulky } => "A bulky load may spin",
        { Shape: LoadShape.Aerodynamic } => "A load that flies may spin",
        _ => null,
    };
}
