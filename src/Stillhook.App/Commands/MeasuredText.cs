using System.Globalization;
using Stillhook.Reporting;

namespace Stillhook.App.Commands;

/// <summary>What flights before say, as a person reads it in a terminal.</summary>
internal static class MeasuredText
{
    /// <summary>A day's hovers against those before.</summary>
    public static void Write(TextWriter output, HoverDay day) => output.WriteLine($"{(day.ToWriteUp ? "  WRITE UP: " : "  ")}{day.Sentence}");

    /// <summary>One pilot's deliveries against that pilot's own usual ones. For that pilot alone.</summary>
    public static void Write(TextWriter output, string pilot, IReadOnlyList<DeliveryBaseline> usual, IReadOnlyList<KeptLift> lifts)
    {
        output.WriteLine($"Beside what is usual for {pilot}, who alone reads this:");
        if (usual.Count == 0)
        {
            output.WriteLine($"  Fewer than five measured deliveries of one kind and line are kept of {pilot}: nothing to set beside.");
            return;
        }
        int told = 0;
        foreach (KeptLift lift in lifts)
            if (lift.Measures is { } measures && DeliveryBaseline.For(usual, lift) is { } own)
                foreach ((UsualMeasure u, double value) in own.Unusual(measures))
                {
                    output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {lift.Number}: {Name(u.Measure)} {Text(u, value)} {Unit(u.Measure)}; half of {u.Count} deliveries lie between {Text(u, u.Low)} and {Text(u, u.High)} {Unit(u.Measure)}."));
                    told++;
                }
        if (told == 0)
            output.WriteLine("  Nothing out of the usual.");
    }

    private static string Name(DeliveryMeasure measure) => measure switch
    {
        DeliveryMeasure.OvershootM => "past the spot",
        DeliveryMeasure.HoverTimeS => "hover",
        DeliveryMeasure.SwingAfterStopM => "swing after the stop",
        DeliveryMeasure.SwingContactM => "swing at contact",
        DeliveryMeasure.SinkLast15Ms => "sink at set-down",
        _ => "rotation",
    };

    private static string Text(UsualMeasure of, double value) => value.ToString(Unit(of.Measure) switch { "s" => "0", "m" => "0.0", _ => "0.00" }, CultureInfo.InvariantCulture);

    private static string Unit(DeliveryMeasure measure) => measure switch
    {
        DeliveryMeasure.HoverTimeS or DeliveryMeasure.CycleTimeS => "s",
        DeliveryMeasure.SinkLast15Ms => "m/s",
        _ => "m",
    };
}
