using System.Text;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

/// <summary>The approach to a lift plan of its one load is the approach to the whole plan, byte for byte.</summary>
public sealed class OneLoadApproachTests
{
    private static readonly LiftRequest Read = JobFile.Read(File.OpenRead(Repository.File("examples/path-repair.json"))).Request;

    // One course, about the one the example is offered: the lift plan is looked at here, not the search.
    private static readonly LiftRequest Example = Read with { Approach = (Read.Approach ?? new()) with { Course = Angle.FromDegrees(330) } };

    /// <summary>Mass (kg) of the load, length (m) of the line, temperature (°C): what a slider moves.</summary>
    public static TheoryData<string, double?, double?, double?> Moved => new()
    {
        { "4", 655, null, null },
        { "4", null, 41.5, null },
        { "4", null, null, 27 },
        { "1", null, 22, 31 },
        { "4", 1900, null, null }, // far too heavy: what is said against it is the same too
        { "9", 480, 60, -3 },
    };

    [Theory, MemberData(nameof(Moved))]
    public void Approach_PlanOfTheOneLoad_IsThatOfTheWholePlan(string load, double? massKg, double? lineM, double? temperatureC)
    {
        ApproachShift shift = new(Temperature: temperatureC is { } t ? Temperature.FromDegreesCelsius(t) : null, Line: lineM is { } l ? Length.FromMeters(l) : null, Load: massKg is { } m ? new(load, Mass.FromKilograms(m)) : null);
        LiftRequest request = shift.Applied(Example);
        ApproachOptions options = new() { Load = load, Shift = shift, Flights = 60, TrialFlights = 20 };
        LiftPlan whole = Job.Plan(request, new()), one = Job.Plan(request, new() { OnlyLoad = load });
        // Closed form: both are worked out from the same order, fuel and hour.
        Assert.Equal(Text(request, Job.Approach(request, whole, options)), Text(request, Job.Approach(request, one, options)));
        Assert.Equal(24, whole.Loads.Count);
        LoadPlan only = Assert.Single(one.Loads), same = whole.Loads.Single(p => p.OnHook.Load.Number == load);
        Assert.Equal((same.Verdict, same.Why, same.SpareKg, same.Lift?.HookOnMinute, same.Lift?.FuelFromKg), (only.Verdict, only.Why, only.SpareKg, only.Lift?.HookOnMinute, only.Lift?.FuelFromKg));
        Assert.Equal(same.Hover, only.Hover);
    }

    private static string Text(LiftRequest request, ApproachPlan plan)
    {
        using MemoryStream stream = new();
        ApproachDocuments.Write(stream, request, plan, null, _ => null);
        string figures = string.Join('\n', plan.Figures.All.Select(f => $"{f.Key} {f.Value} {string.Join(';', f.Inputs)}"));
        return Encoding.UTF8.GetString(stream.ToArray()) + figures;
    }
}
