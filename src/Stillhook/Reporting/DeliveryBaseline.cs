using MathNet.Numerics.Statistics;
using Stillhook.Debriefing;

namespace Stillhook.Reporting;

/// <summary>What is usual of one measure for one pilot, with one kind of load on one length of line.</summary>
/// <param name="Measure">The measure.</param>
/// <param name="Low">A quarter of the deliveries came in under it.</param>
/// <param name="Middle">Half did.</param>
/// <param name="High">Three quarters did.</param>
/// <param name="Count">Deliveries with this measure.</param>
public sealed record UsualMeasure(DeliveryMeasure Measure, double Low, double Middle, double High, int Count);

/// <summary>Measures that are compared with a pilot's own usual ones. Units m, s, m/s as the names say.</summary>
public enum DeliveryMeasure
{
#pragma warning disable CS1591 // The names are the documentation; definitions stand in docs/method/delivery.md.
    OvershootM, HoverTimeS, SwingAfterStopM, SwingContactM, SinkLast15Ms, CycleTimeS,
#pragma warning restore CS1591
}

/// <summary>One pilot's usual deliveries, private to that pilot: there is no comparing of pilots here.</summary>
/// <param name="Pilot">Whose.</param>
/// <param name="LineM">Line length to 5 m; null when not told.</param>
/// <param name="Family">Kind of load; null when not told.</param>
/// <param name="Measures">Those with five deliveries or more.</param>
public sealed record DeliveryBaseline(string Pilot, double? LineM, string? Family, IReadOnlyList<UsualMeasure> Measures)
{
    private const int LeastCount = 5;
    private const double LineStepM = 5;
    private static readonly DeliveryMeasure[] Every = Enum.GetValues<DeliveryMeasure>();

    /// <summary>A pilot's baselines by line length and kind of load.</summary>
    /// <param name="pilot">The pilot who asks.</param>
    /// <param name="lifts">Lifts that this pilot flew.</param>
    public static IReadOnlyList<DeliveryBaseline> Of(string pilot, IEnumerable<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        return Of(pilot, [.. MeasuredLift.Of(lifts)]);
    }

    /// <inheritdoc cref="Of(string, IEnumerable{KeptLift})"/>
    public static IReadOnlyList<DeliveryBaseline> Of(string pilot, IReadOnlyList<MeasuredLift> lifts)
    {
        ArgumentException.ThrowIfNullOrEmpty(pilot);
        ArgumentNullException.ThrowIfNull(lifts);
        Dictionary<(double? LineM, string? Family), List<double>[]> groups = [];
        foreach (MeasuredLift lift in lifts)
        {
            (double?, string?) key = (Class(lift.LineM), lift.Family);
            if (!groups.TryGetValue(key, out List<double>[]? values))
                groups.Add(key, values = [.. Every.Select(_ => new List<double>())]);
            for (int m = 0; m < Every.Length; m++)
                if (Value(Every[m], lift) is { } v && double.IsFinite(v))
                    values[m].Add(v);
        }
        return
        [
            .. groups.OrderBy(g => g.Key.LineM).ThenBy(g => g.Key.Family, StringComparer.Ordinal)
                .Select(g => new DeliveryBaseline(pilot, g.Key.LineM, g.Key.Family, [.. g.Value.Select((v, m) => Usual(Every[m], v)).OfType<UsualMeasure>()])).Where(b => b.Measures.Count > 0),
        ];
    }

    /// <summary>The baseline that a lift belongs to; null when there is none.</summary>
    public static DeliveryBaseline? For(IReadOnlyList<DeliveryBaseline> baselines, KeptLift lift)
    {
        ArgumentNullException.ThrowIfNull(baselines);
        ArgumentNullException.ThrowIfNull(lift);
        return baselines.FirstOrDefault(b => b.LineM == Class(lift.LineM) && b.Family == lift.Family);
    }

    /// <summary>Measures of a delivery that lie outside the middle half of what is usual by more than half its width.</summary>
    public IReadOnlyList<(UsualMeasure Usual, double Value)> Unusual(Delivery delivery)
    {
        ArgumentNullException.ThrowIfNull(delivery);
        MeasuredLift lift = MeasuredLift.Of(delivery);
        List<(UsualMeasure Usual, double Value)> unusual = [];
        foreach (UsualMeasure usual in Measures)
            if (Value(usual.Measure, lift) is { } v && (v > usual.High + (usual.High - usual.Low) / 2 || v < usual.Low - (usual.High - usual.Low) / 2))
                unusual.Add((usual, v));
        return unusual;
    }

    private static double? Class(double? lineM) => lineM is { } l ? Math.Round(l / LineStepM) * LineStepM : null;

    private static UsualMeasure? Usual(DeliveryMeasure measure, List<double> values)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted.Length < LeastCount ? null : new(measure, SortedArrayStatistics.QuantileCustom(sorted, 0.25, QuantileDefinition.R7), SortedArrayStatistics.QuantileCustom(sorted, 0.5, QuantileDefinition.R7), SortedArrayStatistics.QuantileCustom(sorted, 0.75, QuantileDefinition.R7), sorted.Length);
    }

    private static double? Value(DeliveryMeasure measure, in MeasuredLift d) => measure switch
    {
        DeliveryMeasure.OvershootM => d.OvershootM,
        DeliveryMeasure.HoverTimeS => d.HoverTimeS,
        DeliveryMeasure.SwingAfterStopM => d.SwingAfterStopM,
        DeliveryMeasure.SwingContactM => d.SwingContactM,
        DeliveryMeasure.SinkLast15Ms => d.SinkLast15Ms,
        _ => d.CycleTimeS,
    };
}
