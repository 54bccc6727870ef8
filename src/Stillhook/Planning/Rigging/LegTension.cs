using System.Globalization;
using Stillhook.Physics.Rigging;
using UnitsNet;

namespace Stillhook.Planning.Rigging;

/// <summary>Share of the load's weight that the hardest-pulled leg of a load's sling carries, and what there is to say of its angle.</summary>
internal sealed record LegTension(double Ratio, string Formula, IReadOnlyList<FigureInput> Inputs, string Note, IReadOnlyList<CheckItem> Items)
{
    private const double DefaultSmallestDeg = 30, RecommendedDeg = 45, Degree = Math.PI / 180;

    public static LegTension Of(Attachment attachment, string path, OperatorPolicy? policy)
    {
        List<FigureInput> inputs = [new("legs", Amount.Number(attachment.Legs, 1), InputFrom.JobFile, path + ".legs")];
        if (attachment.Legs == 1)
            return new(1, "weight below; a single leg hangs straight", inputs, "", []);

        double smallestDeg = policy?.SmallestLegAngle?.Degrees ?? DefaultSmallestDeg;
        double angleDeg = attachment.LegAngle?.Degrees ?? smallestDeg;
        inputs.Add(attachment.LegAngle is null
            ? new("leg angle to the horizontal, the smallest permitted because none is entered", Degrees(angleDeg), InputFrom.Default, path + ".legAngle")
            : new("leg angle to the horizontal", Degrees(angleDeg), InputFrom.JobFile, path + ".legAngle"));

        int carrying = SlingLegs.Carrying(attachment.Legs, attachment.Equalised == true);
        string note = carrying < attachment.Legs ? "Two legs counted: nothing evens out the others." : "";
        LegTension even = new(SlingLegs.TensionRatio(carrying, angleDeg * Degree), "weight below / (carrying legs x sin of the leg angle)",
            [.. inputs, new("carrying legs", Amount.Number(carrying, 1), InputFrom.Rule, "EN-13414-1")], note, []);
        LegTension split = attachment.CentreOfGravityOffset is { Meters: > 0 } ? OffCentre(even, attachment, path, angleDeg, carrying) : even;
        double flattestDeg = split.FlattestDeg ?? angleDeg;
        return split with { Items = [.. split.Items, .. AngleItems(attachment, path, policy, flattestDeg, smallestDeg)] };
    }

    private double? FlattestDeg { get; init; }

    private static LegTension OffCentre(LegTension even, Attachment attachment, string path, double angleDeg, int carrying)
    {
        double offsetM = attachment.CentreOfGravityOffset!.Value.Meters;
        string offsetPath = path + ".centreOfGravityOffset";
        FigureInput offset = new("centre of gravity off the middle", new(Length.FromMeters(offsetM), 0.01), InputFrom.JobFile, offsetPath);
        if (attachment.Legs != 2 || attachment.Span is not { } span)
            return Unworked(even, attachment, path, angleDeg, carrying, offset);
        if (offsetM >= span.Meters / 2)
            return Unworked(even, attachment, path, angleDeg, carrying, offset) with
            {
                Items = [new(CheckVerdict.Fails, "rigging-off-centre", offsetPath, "sling", "The centre of gravity is outside the two attachment points: the load does not hang on both legs.", "STATICS")],
            };

        TwoLegHang hang = SlingLegs.OffCentre(span.Meters, offsetM, angleDeg * Degree);
        return even with
        {
            Ratio = hang.NearTensionRatio,
            Formula = "weight below x (1/2 + c) / root(sin² of the leg angle + 4 c² cos² of the leg angle), c = offset / span",
            Inputs = [.. even.Inputs, offset, new("span of the attachment points", new(span.ToUnit(UnitsNet.Units.LengthUnit.Meter), 0.01), InputFrom.JobFile, path + ".span")],
            Note = string.Create(CultureInfo.InvariantCulture, $"The load hangs {hang.TiltRad / Degree:F0}° out of level; the leg on the heavy side carries most."),
            FlattestDeg = hang.FarAngleRad / Degree,
        };
    }

    /// <summary>An offset whose split can't be worked: the worst split of two legs is taken and a person asked.</summary>
    private static LegTension Unworked(LegTension even, Attachment attachment, string path, double angleDeg, int carrying, FigureInput offset)
    {
        string why = attachment.Legs != 2 ? "An off-centre load is worked for two legs only" : "The span of the attachment points is not entered";
        return even with
        {
            Ratio = carrying == 2 ? SlingLegs.WorstOffCentreRatio(angleDeg * Degree) : even.Ratio,
            Formula = carrying == 2 ? "weight below x worst split of two legs: 1/sin of twice the leg angle below 45°, else 1" : even.Formula,
            Inputs = [.. even.Inputs, offset],
            Items = [new(CheckVerdict.ToConfirm, "rigging-off-centre", path + ".span", "sling",
                $"{why}: {(carrying == 2 ? "the worst split is taken" : "an even split is taken")}, and the angle as the load hangs is not judged.", "STATICS")],
        };
    }

    private static IEnumerable<CheckItem> AngleItems(Attachment attachment, string path, OperatorPolicy? policy, double flattestDeg, double smallestDeg)
    {
        string where = path + ".legAngle";
        string asHung = string.Create(CultureInfo.InvariantCulture, $"{flattestDeg:F0}° to the horizontal");
        if (attachment.LegAngle is null)
            yield return new(CheckVerdict.ToConfirm, "rigging-leg-angle-missing", where, "sling", $"Leg angle not entered: worked with {asHung}.", "OSHA-SLINGS");
        if (flattestDeg < smallestDeg - 1e-9)
            yield return new(CheckVerdict.Fails, "rigging-leg-angle", where, "sling",
                string.Create(CultureInfo.InvariantCulture, $"A leg hangs at {asHung}; the smallest permitted is {smallestDeg:F0}°{(policy?.SmallestLegAngle is null ? "" : " by the operator's rule")}."), "OSHA-SLINGS");
        else if (attachment.LegAngle is not null && flattestDeg < RecommendedDeg - 1e-9)
            yield return new(CheckVerdict.Passes, "rigging-leg-angle-flat", where, "sling", $"A leg hangs at {asHung}; 45° or steeper is better.", CheckItem.CommonPractice);
    }

    private static Amount Degrees(double deg) => new(Angle.FromDegrees(deg), 1);
}
