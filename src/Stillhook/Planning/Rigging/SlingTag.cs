using Stillhook.Physics.Rigging;

namespace Stillhook.Planning.Rigging;

/// <summary>A wire rope or textile sling of two steep legs: statics permit up to twice one leg, its European tag says 1.4 times.</summary>
internal static class SlingTag
{
    /// <summary>A question when the load is above what the tag of such a sling would say; null otherwise.</summary>
    public static CheckItem? Of(Attachment attachment, RiggingPart sling, string path, double loadKg)
    {
        if (sling.Kind is not (PartKind.WireRopeSling or PartKind.TextileSling) || sling.RatedLoad is not { } rated || attachment.LegAngle is not { } angle)
            return null;
        double? factor = SlingRating.ModeFactor(attachment.Legs, angle.Radians);
        if (factor is null || loadKg <= factor * rated.Kilograms * (1 + 1e-9))
            return null;
        return new(CheckVerdict.ToConfirm, "rigging-sling-tag", path + ".ratedLoad", sling.Name,
            FormattableString.Invariant($"The load is over {factor:0.0} times one leg, the rating a European tag gives this sling: read the tag."),
            sling.Kind == PartKind.WireRopeSling ? "EN-13414-1" : "EN-1492");
    }
}
