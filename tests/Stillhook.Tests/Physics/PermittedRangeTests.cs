using Stillhook.Physics.Air;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Line;
using Stillhook.Physics.Motion;
using Stillhook.Physics.Rigging;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics;

/// <summary>Every formula answers at the very ends of the range that its description states, and refuses the next number beyond.</summary>
public sealed class PermittedRangeTests
{
    private static readonly BareLine Line = new(30, 0.5, 0.02, 20, 0.1);

    /// <summary>The function of one value, its lowest and highest value, and whether these are still permitted; no highest value means that any finite one is.</summary>
    private static readonly (string What, Action<double> Take, double Low, bool LowIn, double? High, bool HighIn)[] Ranges =
    [
        ("QNH", x => Altimeter.PressureAltitudeM(500, x), 85_000, true, 110_000, true),
        ("QNH set", x => Altimeter.ReadsHighM(x, 101_325), 85_000, true, 110_000, true),
        ("density", x => DensityAltitude.OfDensityM(x), 0.3, true, 1.8, true),
        ("temperature of saturation", x => Humidity.SaturationPressurePa(x), 228.15, true, 333.15, true),
        ("temperature", x => Humidity.VirtualTemperatureK(x, 90_000, 500), 0, false, null, false),
        ("vapour pressure", x => Humidity.VirtualTemperatureK(288, 90_000, x), 0, true, 45_000, false),
        ("dew point", x => Humidity.DensityByDewPointKgM3(90_000, 288, x), 228.15, true, 288, true),
        ("relative humidity", x => Humidity.DensityByRelativeHumidityKgM3(90_000, 288, x), 0, true, 1, true),
        ("height", x => StandardAtmosphere.PressurePa(x), -2000, true, 11_000, true),
        ("geometric height", x => StandardAtmosphere.GeopotentialM(x), -2000, true, 11_019, true),
        ("temperature of sound", x => StandardAtmosphere.SpeedOfSoundMs(x), 0, false, null, false),
        ("latitude of a frame", x => _ = new LocalFrame(x, 8, 0), -90, true, 90, true),
        ("latitude of the sun", x => SunPosition.At(new DateTimeOffset(2026, 6, 1, 12, 0, 0, TimeSpan.Zero), x, 8), -90, true, 90, true),
        ("swing length", x => Swing.PeriodS(x), 0, false, null, false),
        ("swing amplitude", x => Swing.PeriodRatio(x), 0, true, Math.PI, false),
        ("line length", x => _ = new BareLine(x, 0.5, 0.02, 20, 0.1), 0, false, null, false),
        ("line mass", x => _ = new BareLine(30, x, 0.02, 20, 0.1), 0, true, null, false),
        ("line diameter", x => _ = new BareLine(30, 0.5, x, 20, 0.1), 0, true, null, false),
        ("hook", x => _ = new BareLine(30, 0.5, 0.02, x, 0.1), 0, false, null, false),
        ("below the horizontal", x => Line.LargestSpeedBelowMs(x), 0, true, Math.PI / 2, false),
        ("mass of a heavy line", x => LineMass.ExactFrequencyRadS(32, x, 512), 1e-6 * 16, true, 16_000, true), // lengths by which the edge is exact in binary
        ("share of a band", x => InputShaper.ZeroVibration(0.6).BandWidth(x), 0, false, 1, false),
        ("allowed share", x => InputShaper.ExtraInsensitive(0.6, x), 0, true, 0.5, true),
        ("damping", x => InputShaper.ZeroVibration(0.6, x), 0, true, 0.99, true),
        ("rate of a track", x => SpectralArcLength.Of([0, 1, 2, 1, 0], x), 0, false, null, false),
        ("box", x => _ = new SpeedRamp(x, 1), 0, false, null, false),
        ("soft ends", x => _ = new SpeedRamp(1, x), 0, false, null, false),
        ("stop", x => _ = new TauRamp(x, 0.5, 1), 0, false, null, false),
        ("rate of tau", x => _ = new TauRamp(20, x, 1), 0.25, true, 0.75, true),
        ("rate of tau in a stop", x => _ = new TauStop(10, 100, x).StopTimeS, 0, false, 1, false),
        ("way of a stop", x => new TauStop(10, 100, 0.5).SpeedOverMs(x), 0, true, 100, true),
        ("blend", x => SmoothBlend.Quintic.At(x), 0, true, 1, true),
        ("path", x => SlowDownDistance.SinkMs(10, x), 0, true, Math.PI / 2, false),
        ("range of a stop", x => PerceivedRangeStop.From(15, 1).TimeS(200, x), 0, false, 200, true),
        ("constant share", x => _ = new SinkArrest(1, 1, 0.2, x), 0, true, 0.9, true),
        ("power over hover", x => _ = new SinkArrest(1, 1, x), 0, false, null, false),
        ("load on a hook", x => AttachmentLimitLoad.LimitN(x), 0, true, null, false),
        ("from the vertical", x => AttachmentLimitLoad.PartsN(500, x), 0, true, Math.PI / 2, true),
        ("span", x => SlingLegs.AngleRad(x, 2), 0, false, 4, false),
        ("offset", x => SlingLegs.OffCentre(2, x, 1), 0, true, 1, false),
        ("leg", x => SlingLegs.AngleRad(2, x), 1, false, null, false),
        ("voltage", x => WireClearance.SmallestM(x), 0, true, null, false),
        ("tip speed", x => _ = new MainRotor(5, 3, 0.35, x), 50, true, 300, true),
        ("thrust", x => Inflow.HoverMs(x, 1.2, 90), 0, false, null, false),
        ("induced factor", x => _ = new PowerFactors(InducedFactor: x), 1, true, 2, true),
        ("tail rotor share", x => _ = new PowerFactors(TailRotorShare: x), 0, true, 0.5, true),
        ("airspeed and the ring", x => VortexRing.OnsetSinkMs(x, 10), 0, true, null, false),
    ];

    public static TheoryData<string> Names => [.. Ranges.Select(r => r.What)];

    // Closed form: the range of each function's description, and the next double beyond.
    [Theory]
    [MemberData(nameof(Names))]
    public void Function_AtTheEndsOfItsRange_AnswersAndRefusesTheNextNumber(string what)
    {
        (_, Action<double> take, double low, bool lowIn, double? high, bool highIn) = Ranges.Single(r => r.What == what);
        void Refused(double x) => Assert.Throws<ArgumentOutOfRangeException>(() => take(x));
        take(lowIn ? low : Math.BitIncrement(low));
        Refused(lowIn ? Math.BitDecrement(low) : low);
        if (high is { } top)
        {
            take(highIn ? top : Math.BitDecrement(top));
            Refused(highIn ? Math.BitIncrement(top) : top);
        }
        foreach (double never in (double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity])
            Refused(never);
    }
}
