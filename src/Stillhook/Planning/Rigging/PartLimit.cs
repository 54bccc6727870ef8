using System.Globalization;
using Stillhook.Physics.Rigging;

namespace Stillhook.Planning.Rigging;

/// <summary>What one part may carry: its mark, and its certified breaking strength over the design factor.</summary>
internal sealed record PartLimit(double? PermittedKg, Figure? Limit, Figure? Use, Figure? Strength, IReadOnlyList<CheckItem> Items)
{
    private const double DefaultDesignFactor = 5;
    private const string Source = "WAC-296-45-67537";

    public static PartLimit Of(RiggingPart part, string path, string key, Figure carried, double carriedKg, OperatorPolicy? policy)
    {
        FigureInput factor = DesignFactor(policy, out double designFactor);
        List<CheckItem> items = [];
        Figure? strength = part.BreakingStrength is { } breaking ? StrengthOf(part, breaking.Kilograms, path, key, carried, carriedKg, factor) : null;
        if (part.BreakingStrength is { } certified && certified.Kilograms < designFactor * carriedKg * (1 - 1e-9))
            items.Add(new(CheckVerdict.Fails, "rigging-breaking-strength", path + ".breakingStrength", part.Name,
                string.Create(CultureInfo.InvariantCulture, $"Breaking strength is {Floor(certified.Kilograms / carriedKg)} times what it carries; {designFactor:0.##} is needed."), Source));
        if (part.RatedLoad is not { } rated)
        {
            items.Add(new(CheckVerdict.Fails, "rigging-no-mark", path + ".ratedLoad", part.Name, "No rated load is marked on it: it may not be used.", Source));
            return new(null, null, null, strength, items);
        }

        double byStrengthKg = part.BreakingStrength?.Kilograms / designFactor ?? double.PositiveInfinity, permittedKg = Math.Min(rated.Kilograms, byStrengthKg);
        Figure limit = LimitOf(part, path, key, permittedKg, byStrengthKg < rated.Kilograms, factor);
        double percent = carriedKg / permittedKg * 100;
        if (carriedKg > rated.Kilograms * (1 + 1e-9))
            items.Add(new(CheckVerdict.Fails, "rigging-over-limit", path + ".ratedLoad", part.Name,
                string.Create(CultureInfo.InvariantCulture, $"Carries {carriedKg / rated.Kilograms * 100:F1} % of its rated load."), Source));
        Figure use = new(key, $"Use of {part.Name}", Amount.Percent(percent), "carried / permitted",
            [new("carried", carried.Value, InputFrom.Figure, carried.Key), new("permitted", limit.Value, InputFrom.Figure, limit.Key)], Source);
        return new(permittedKg, limit, use, strength, items);
    }

    /// <summary>The operator's factor or five; never under the 3.75 that the certification of the attaching means leaves.</summary>
    private static FigureInput DesignFactor(OperatorPolicy? policy, out double factor)
    {
        factor = Math.Max(policy?.DesignFactor ?? DefaultDesignFactor, AttachmentLimitLoad.BreakingFactor);
        if (policy?.DesignFactor is not { } asked)
            return new("breaking strength over static load, rule WAC-296-45-67537", Amount.Number(factor), InputFrom.Default, "policy.designFactor");
        return asked < factor
            ? new("breaking strength over static load, not less than 2.5 x 1.5", Amount.Number(factor), InputFrom.Rule, "14CFR-27.865")
            : new("breaking strength over static load", Amount.Number(factor), InputFrom.JobFile, "policy.designFactor");
    }

    private static Figure LimitOf(RiggingPart part, string path, string key, double permittedKg, bool strengthGoverns, FigureInput factor)
    {
        List<FigureInput> inputs = [new("rated load on the mark", Amount.Kilograms(part.RatedLoad!.Value.Kilograms), InputFrom.JobFile, path + ".ratedLoad")];
        if (part.BreakingStrength is { } breaking)
            inputs.AddRange([new("breaking strength", Amount.Kilograms(breaking.Kilograms), InputFrom.JobFile, path + ".breakingStrength"), factor]);
        return new(key + ".limit", $"{part.Name} may carry", Amount.Kilograms(permittedKg),
            part.BreakingStrength is null ? "rated load on the mark" : "smaller of the rated load and breaking strength / design factor", inputs, Source,
            part.BreakingStrength is null ? "Breaking strength not entered: the mark alone stands." : strengthGoverns ? "The breaking strength governs." : "The mark governs.");
    }

    private static Figure StrengthOf(RiggingPart part, double breakingKg, string path, string key, Figure carried, double carriedKg, FigureInput factor) =>
        new(key + ".strength", $"Breaking strength of {part.Name} over what it carries", Amount.Number(breakingKg / carriedKg), "breaking strength / carried",
            [new("breaking strength", Amount.Kilograms(breakingKg), InputFrom.JobFile, path + ".breakingStrength"), new("carried", carried.Value, InputFrom.Figure, carried.Key), factor], Source,
            "Never below 3.75: limit load 2.5, breaking 1.5 times that [14CFR-27.865] [14CFR-27.303].");

    private static string Floor(double factor) => (Math.Floor(factor * 100) / 100).ToString("0.00", CultureInfo.InvariantCulture);
}
