using BenchmarkDotNet.Attributes;
using Stillhook.Files.Jobs;
using Stillhook.Physics.Rotor;
using Stillhook.Planning;
using Stillhook.Planning.Payload;

namespace Stillhook.Bench;

/// <summary>The lift plan of the example job: its parts and the whole without the solver.</summary>
[MemoryDiagnoser]
public class PlanningBenchmarks
{
    private readonly byte[] text = File.ReadAllBytes(ExampleJob());
    private LiftRequest request = null!;
    private PowerModel model = null!;
    private (MainRotor Rotor, HoverChartPoint[] Points) power;

    [GlobalSetup]
    public void Setup()
    {
        request = JobFile.Read(new MemoryStream(text)).Request;
        RotorGiven rotor = request.Aircraft!.Rotor!;
        power = (new(rotor.Radius.Meters, rotor.Blades, rotor.Chord.Meters, rotor.TipSpeed.MetersPerSecond),
            [.. ChartTable.From(request.Aircraft.HoverOutOfGroundEffect!).Printed.Select(p => new HoverChartPoint(p.PressureAltitude.Meters, p.TemperatureC + 273.15, p.Value))]);
        model = CalibratePower();
    }

    [Benchmark] public JobFile ReadJobFile() => JobFile.Read(new MemoryStream(text));

    /// <summary>One load at both sites from nothing: charts, air, limits, working.</summary>
    [Benchmark]
    public LoadPayload PayloadOfOneLoad()
    {
        PlanOptions options = new();
        FigureBook figures = new();
        PayloadCalculator calculator = new(request, new(request), figures, site => options.WeatherOf(request, site));
        Figure fuel = new("fuel", "fuel", Amount.Kilograms(180), "given", [], ""), kit = fuel with { Key = "kit" }, need = fuel with { Key = "need" };
        LoadOnHook load = new(request.Loads[0], "loads[0]", 725, 37, 1479, "line", false, need, kit, "");
        return new(calculator.Payload(load, calculator.At(request.Sites[0], 9), fuel, "a"), calculator.Payload(load, calculator.At(request.Sites[1], 9), fuel, "b"));
    }

    [Benchmark] public PowerModel CalibratePower() => PowerModel.Calibrate(power.Rotor, power.Points);

    [Benchmark] public HoverPower HoverCall() => model.Hover(1950, 1700, 288);

    [Benchmark] public LiftPlan WholePlanWithoutSolver() => Planner.Plan(request, new());

    internal static string ExampleJob()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Stillhook.slnx")))
            folder = folder.Parent;
        return Path.Combine(folder?.FullName ?? ".", "examples", "path-repair.json");
    }
}
