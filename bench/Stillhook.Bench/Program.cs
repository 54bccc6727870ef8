using System.Globalization;
using System.Runtime.CompilerServices;
using BenchmarkDotNet.Running;
using Stillhook.Bench;
using Stillhook.Bench.Baselines;

// The modes that other processes time come first, so that they don't pay for loading the benchmark library.
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
switch (args)
{
    case ["order-instances", string folder]:
        OrderInstances.Write(folder);
        return 0;
    case ["order", string folder, .. string[] only]:
        return OrderRun.Run(folder, only);
    case ["parse-only", string gpx]:
        Console.WriteLine(XmlWalk.Nodes(gpx));
        return 0;
    case ["read-only", string record]:
        Console.WriteLine(ReadOnly.Count(record));
        return 0;
    case ["xml-double", string gpx]:
        Console.WriteLine(XmlDouble.Points(gpx));
        return 0;
    case ["growth", .. string[] folder]:
        return GrowthRun.Run(folder);
    case ["season", .. string[] folder]:
        return SeasonRun.Run(folder);
    case ["opening", .. string[] folder]:
        return OpeningRun.Run(folder);
    case ["empty-page"]:
        return EmptyPageProgram.Run();
    case ["soak", ..]:
        return SoakRun.Run(args[1..]);
    case ["live", .. string[] folder]:
        return LiveRun.Run(folder);
    case ["approach"]:
        return ApproachRun.Run();
    case ["batch"]:
        return BatchRun.Run();
    case ["store", string file]:
        return StoreRun.Run(file);
    case ["pages", string page, .. string[] show]:
        return PagesRun.Run(page, show);
    case ["sliders", string page]:
        return SliderRun.Run(page);
    case ["import", string folder, .. string[] flights]:
        return ImportRun.Run(folder, flights.Length > 0 ? int.Parse(flights[0], CultureInfo.InvariantCulture) : 1000);
    case ["commands", ..]:
        return CommandRun.Run(args[1..]);
    default:
        return Parts(args);
}

[MethodImpl(MethodImplOptions.NoInlining)]
static int Parts(string[] args)
{
    BenchmarkSwitcher.FromAssembly(typeof(LongDay).Assembly).Run(args);
    return 0;
}
