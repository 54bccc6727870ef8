using Stillhook.Physics.Air;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

/// <summary>A helicopter that doesn't exist, with a hover chart made by other means than the product's model.</summary>
/// <remarks>
/// Rotor: blade elements with Bailey's drag polar (0.0087 − 0.0216·α + 0.4·α²), drag rise towards the stall and with Mach number, linear twist, inflow by annulus, tip loss 0.97;
/// tail rotor from the torque it must hold, gears 3 %, accessories a fixed power. Engines: five forms, none of them the product's. The mass is found by bisection and
/// rounded as a manual prints it. Temperatures K, heights m, mass kg, power W.
/// </remarks>
internal sealed class InventedHelicopter
{
    private const double LiftSlope = 5.73, TipLoss = 0.97, Gravity = 9.80665;
    private const int Stations = 40;

    public required string Name { get; init; }

    public required MainRotor Rotor { get; init; }

    public required double TransmissionW { get; init; }

    /// <summary>Engine power of pressure altitude and temperature.</summary>
    public required Func<double, double, double> EngineW { get; init; }

    public required double RoundToKg { get; init; }

    public double MassLimitKg { get; init; } = double.PositiveInfinity;

    public double TwistRad { get; init; } = -0.17;

    public double Download { get; init; } = 1.035;

    public double AccessoryW { get; init; } = 8_000;

    public HoverChartPoint[] Chart(IEnumerable<(double HeightM, double TemperatureK)> places) =>
        [.. places.Select(p => new HoverChartPoint(p.HeightM, p.TemperatureK, Math.Round(HoverMassKg(p.HeightM, p.TemperatureK) / RoundToKg) * RoundToKg))];

    public double AvailableW(double heightM, double temperatureK) => Math.Min(TransmissionW, EngineW(heightM, temperatureK));

    public double HoverMassKg(double heightM, double temperatureK)
    {
        double low = 0.1, high = 1.2 * Rotor.MeanLiftLimitKg(heightM, temperatureK), available = AvailableW(heightM, temperatureK);
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            if (RequiredW(middle, heightM, temperatureK) > available)
                high = middle;
            else
                low = middle;
        }
        return Math.Min(low, MassLimitKg);
    }

    public double RequiredW(double massKg, double heightM, double temperatureK)
    {
        double rho = StandardAtmosphere.PressurePa(heightM) / (287.05287 * temperatureK), tip = Rotor.TipSpeedMs;
        double unit = rho * Math.PI * Rotor.RadiusM * Rotor.RadiusM * tip * tip, mach = tip / Math.Sqrt(1.4 * 287.05287 * temperatureK);
        double main = PowerCoefficient(Download * massKg * Gravity / unit, mach) * unit * tip;
        double tailR = 0.18 * Rotor.RadiusM, tailThrust = main / tip * Rotor.RadiusM / (1.2 * Rotor.RadiusM), tailArea = Math.PI * tailR * tailR;
        double tail = 1.3 * tailThrust * Math.Sqrt(tailThrust / (2 * rho * tailArea)) + 0.15 * 0.011 / 8 * rho * tailArea * Math.Pow(0.95 * tip, 3);
        return 1.03 * (main + tail) + AccessoryW;
    }

    private double PowerCoefficient(double thrustCoefficient, double tipMach)
    {
        double low = 0, high = 0.8;
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            if (Integrate(middle, tipMach).Thrust > thrustCoefficient)
                high = middle;
            else
                low = middle;
        }
        return Integrate(low, tipMach).Power;
    }

    private (double Thrust, double Power) Integrate(double pitch75, double tipMach)
    {
        double sigma = Rotor.BladeCount * Rotor.ChordM / (Math.PI * Rotor.RadiusM), thrust = 0, power = 0, dr = 0.85 / Stations;
        for (int i = 0; i < Stations; i++)
        {
            double r = 0.15 + (i + 0.5) * dr, pitch = Math.Max(1e-6, pitch75 + TwistRad * (r - 0.75));
            double inflow = sigma * LiftSlope / 16 * (Math.Sqrt(1 + 32 * pitch * r / (sigma * LiftSlope)) - 1), alpha = pitch - inflow / r;
            double lift = LiftSlope * alpha, drag = 0.0087 - 0.0216 * alpha + 0.4 * alpha * alpha;
            drag += 0.5 * Math.Pow(Math.Max(0, lift - 0.9), 2) + 0.1 * Math.Max(0, r * tipMach - (0.78 - 0.25 * lift));
            double element = r < TipLoss ? sigma / 2 * lift * r * r * dr : 0;
            thrust += element;
            power += element * inflow + sigma / 2 * drag * r * r * r * dr;
        }
        return (thrust, power);
    }

    private static double Celsius(double k) => k - 273.15;

    private static double StandardK(double h) => 288.15 - 0.0065 * h;

    /// <summary>Turbine whose power falls straight with the difference from the standard day.</summary>
    public static InventedHelicopter LightSingle() => new()
    {
        Name = "light single turbine", Rotor = new(5.3, 3, 0.35, 217), TransmissionW = 500e3, RoundToKg = 5, TwistRad = -0.21,
        EngineW = (h, t) => 640e3 * Math.Pow(StandardAtmosphere.PressurePa(h) / 101_325, 0.96) * (1 - 0.0062 * (t - StandardK(h))),
    };

    /// <summary>Piston engine by Gagg and Ferrar, derated at sea level.</summary>
    public static InventedHelicopter LightPiston() => new()
    {
        Name = "light piston", Rotor = new(5.0, 2, 0.25, 205), TransmissionW = 165e3, RoundToKg = 5, AccessoryW = 3_000, TwistRad = -0.1,
        EngineW = (h, t) =>
        {
            double sigma = Math.Pow(StandardK(h) / 288.15, 4.2559);
            return 195e3 * (sigma - (1 - sigma) / 7.55) * Math.Sqrt(StandardK(h) / t);
        },
    };

    /// <summary>Turbine by density, with a bend where a turbine-temperature limit takes over from a speed limit; cut off at the external mass limit.</summary>
    public static InventedHelicopter MediumSingle() => new()
    {
        Name = "medium single turbine", Rotor = new(7.3, 2, 0.53, 248), TransmissionW = 970e3, RoundToKg = 10, MassLimitKg = 4_900, TwistRad = -0.17,
        EngineW = (h, t) =>
        {
            double density = StandardAtmosphere.PressurePa(h) / (287.05287 * t) / 1.225;
            return 1_200e3 * Math.Min(Math.Pow(density, 0.85), 1.03 * Math.Pow(density, 0.9) * (1 - 0.004 * Math.Max(0, Celsius(t) - 5)));
        },
    };

    /// <summary>Two turbines, exponential with height, quadratic with temperature.</summary>
    public static InventedHelicopter MediumTwin() => new()
    {
        Name = "medium twin turbine", Rotor = new(7.9, 4, 0.5, 220), TransmissionW = 1_700e3, RoundToKg = 10, AccessoryW = 25_000, TwistRad = -0.24,
        EngineW = (h, t) => 2_050e3 * Math.Exp(-h / 9_300) * (1 - 0.0045 * (Celsius(t) - 15) - 3e-5 * Math.Pow(Celsius(t) - 15, 2)),
    };

    /// <summary>Two large turbines from a table of two lines, straight between; bleed air on above 2 000 m costs 1 %.</summary>
    public static InventedHelicopter Heavy() => new()
    {
        Name = "heavy twin turbine", Rotor = new(11, 6, 0.6, 213), TransmissionW = 4_900e3, RoundToKg = 50, AccessoryW = 60_000, TwistRad = -0.14, Download = 1.045,
        EngineW = (h, t) =>
        {
            double sea = 6_200e3 - 33e3 * (Celsius(t) - 15), at4000 = 3_950e3 - 24e3 * (Celsius(t) + 11), part = h / 4000;
            return (sea + part * (at4000 - sea)) * (h > 2000 ? 0.99 : 1);
        },
    };
}

file static class LiftLimit
{
    /// <summary>Mass at a mean lift coefficient of 1, above which no rotor hovers.</summary>
    public static double MeanLiftLimitKg(this MainRotor rotor, double heightM, double temperatureK) =>
        StandardAtmosphere.PressurePa(heightM) / (287.05287 * temperatureK) * rotor.DiscAreaM2 * rotor.TipSpeedMs * rotor.TipSpeedMs * rotor.Solidity / 6 / 9.80665;
}
