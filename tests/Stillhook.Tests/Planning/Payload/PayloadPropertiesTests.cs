using CsCheck;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Tests.Planning.Payload;

/// <summary>Payload never rises with heat, height, fuel or kit, whatever the chart.</summary>
public class PayloadPropertiesTests
{
    // A random page that falls with heat and with height, as every page does.
    private static readonly Gen<HoverChart> Charts = Gen.Select(Gen.Double[2000, 3500], Gen.Double[0, 120].Array[5], Gen.Double[0, 120].Array[4], Gen.Double[0, 0.5]).Select((top, byHeight, byHeat, mixed) => new HoverChart
    {
        Source = "invented page",
        PressureAltitude = [.. Enumerable.Range(0, 5).Select(r => Length.FromFeet(-1000 + 2500 * r))],
        Temperature = [.. Enumerable.Range(0, 4).Select(c => Jobs.C(-20 + 20 * c))],
        Mass = [.. Enumerable.Range(0, 5).Select(r => (IReadOnlyList<Mass?>)[.. Enumerable.Range(0, 4).Select(c =>
            (Mass?)Jobs.Kg(top - byHeight.Take(r + 1).Sum() - byHeat.Take(c + 1).Sum() - mixed * r * c))])],
    });

    private static readonly Gen<(HoverChart Chart, double ElevationM, double TemperatureC, double FuelKg, double KitKg)> Cases =
        Gen.Select(Charts, Gen.Double[100, 2200], Gen.Double[-15, 35], Gen.Double[60, 280], Gen.Double[5, 200]);

    [Fact]
    public void Payload_MoreHeatHeightFuelOrKit_IsNeverMore() => Gen.Select(Cases, Gen.Double[0, 4], Gen.Int[0, 3]).Sample((at, more, which) =>
    {
        (double elevation, double heat, double fuel, double kit) = which switch
        {
            0 => (at.ElevationM + 100 * more, at.TemperatureC, at.FuelKg, at.KitKg),
            1 => (at.ElevationM, at.TemperatureC + more, at.FuelKg, at.KitKg),
            2 => (at.ElevationM, at.TemperatureC, at.FuelKg + 10 * more, at.KitKg),
            _ => (at.ElevationM, at.TemperatureC, at.FuelKg, at.KitKg + 10 * more),
        };
        Assert.True(Allowed(at.Chart, elevation, heat, fuel, kit) <= Allowed(at.Chart, at.ElevationM, at.TemperatureC, at.FuelKg, at.KitKg));
    });

    [Fact]
    public void HotOfDay_JustBelowItFits_JustAboveItDoesNot() => Gen.Select(Cases, Gen.Double[200, 900]).Sample((at, load) =>
    {
        (PayloadCalculator calculator, LoadOnHook onHook, SiteHour hour) = Set(at.Chart, at.ElevationM, at.TemperatureC, at.KitKg, load);
        HotOfDay hot = HotOfDay.Find(calculator, onHook, hour, at.FuelKg, new PlanOptions().WeatherOf(Request(at.Chart, at.ElevationM, at.TemperatureC, at.KitKg, load), hour.Site), 480);
        bool Fits(double c) => calculator.MostFuelKg(onHook, calculator.GrossKgAt(hour, c)) >= at.FuelKg;
        if (double.IsNaN(hot.TemperatureC))
            Assert.False(Fits(-20));
        else if (hot.ToEndOfChart)
            Assert.True(Fits(40));
        else
            Assert.True(Fits(hot.TemperatureC) && !Fits(hot.TemperatureC + 0.06));
    });

    private static double Allowed(HoverChart chart, double elevationM, double temperatureC, double fuelKg, double kitKg)
    {
        (PayloadCalculator calculator, LoadOnHook load, SiteHour at) = Set(chart, elevationM, temperatureC, kitKg, 500);
        return calculator.Payload(load, at, new("fuel", "fuel", Amount.Kilograms(fuelKg), "given", [], "test"), "payload").AllowedKg;
    }

    private static (PayloadCalculator, LoadOnHook, SiteHour) Set(HoverChart chart, double elevationM, double temperatureC, double kitKg, double loadKg)
    {
        LiftRequest request = Request(chart, elevationM, temperatureC, kitKg, loadKg);
        FigureBook figures = new();
        PayloadCalculator calculator = new(request, new(request), figures, site => new PlanOptions().WeatherOf(request, site));
        Figure kit = new("kit", "kit", Amount.Kilograms(kitKg), "given", [], "test"), need = new("need", "need", Amount.Kilograms(loadKg), "given", [], "test");
        return (calculator, new(request.Loads[0], "loads[0]", loadKg, kitKg, double.PositiveInfinity, "", false, need, kit, ""), calculator.At(request.Sites[1], 8));
    }

    private static LiftRequest Request(HoverChart chart, double elevationM, double temperatureC, double kitKg, double loadKg) =>
        Jobs.Job(Jobs.Aircraft(chart), [Jobs.Site("yard", SiteUse.PickUp, 0, temperatureC), Jobs.Site("ridge", SiteUse.Delivery, elevationM, temperatureC, 46.905)], Jobs.Load("1", loadKg));
}
