using System.Text.Json;
using System.Text.Json.Serialization;
using Stillhook.Planning.Ordering;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>Invented days for the order: fixed seed, written as JSON to bench/instances.</summary>
public static class OrderInstances
{
    private static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>What an instance file holds.</summary>
    public sealed record Instance(string Name, string Kind, OrderProblem Problem);

    /// <summary>All instances.</summary>
    public static IEnumerable<Instance> All()
    {
        foreach (int loads in new[] { 12, 20, 40, 80 })
        {
            yield return Make(loads, deliveries: 1, precedence: false, hot: false);
            yield return Make(loads, deliveries: 3, precedence: false, hot: false);
            yield return Make(loads, deliveries: 3, precedence: true, hot: false);
            yield return Make(loads, deliveries: 3, precedence: true, hot: true);
        }
    }

    /// <summary>Writes them.</summary>
    public static void Write(string folder)
    {
        Directory.CreateDirectory(folder);
        foreach (Instance instance in All())
            File.WriteAllText(Path.Combine(folder, instance.Name + ".json"), JsonSerializer.Serialize(instance, Json) + "\n");
    }

    /// <summary>Reads them back.</summary>
    public static IEnumerable<Instance> Read(string folder) => Directory.GetFiles(folder, "*.json").Order(StringComparer.Ordinal)
        .Select(f => JsonSerializer.Deserialize<Instance>(File.ReadAllText(f), Json)!);

    private static Instance Make(int count, int deliveries, bool precedence, bool hot)
    {
        SimulationRandom random = new((ulong)(count * 100 + deliveries * 10 + (precedence ? 2 : 0) + (hot ? 1 : 0)), "order");
        double Between(double low, double high, double step) => Math.Round((low + (high - low) * random.NextUnit()) / step) * step;
        int sites = 2 + deliveries;
        EmptyLeg[][] legs = [.. Enumerable.Range(0, sites).Select(_ => new EmptyLeg[sites])];
        for (int a = 0; a < sites; a++)
            for (int b = a + 1; b < sites; b++)
            {
                double minutes = a == 0 && b == 1 ? 1 : Between(1.5, 3, 0.1);
                legs[a][b] = legs[b][a] = new(minutes, Math.Round(minutes * 2.6, 1));
            }
        // Capacity by hour, lowest at 15 h.
        double[] byHour = [.. Enumerable.Range(0, 24).Select(h => 1000 - (hot ? Math.Round(60 * Math.Exp(-Math.Pow((h - 15) / 2.5, 2))) : 0))];
        OrderRoute[] routes = [.. Enumerable.Range(0, deliveries).Select(d =>
        {
            double minutes = Between(3, 4.5, 0.1);
            return new OrderRoute
            {
                PickUp = 1, Delivery = 2 + d, LoadedMinutes = minutes, LoadedFuelKg = Math.Round(minutes * 3.1, 1), FixedMinutes = 0.5,
                CapacityKg = [.. byHour.Select(c => c - 10 * d)], FixedMaxKg = 1000,
            };
        })];
        List<OrderLoad> loads = [];
        for (int i = 0; i < count; i++)
        {
            int[] sameSite = [.. Enumerable.Range(0, i).Where(j => loads[j].Route == i % deliveries)];
            loads.Add(new()
            {
                Number = $"{i + 1}", Route = i % deliveries, Family = random.NextUnit() < 0.5 ? "formwork" : "steel",
                NeedKg = random.NextUnit() < 0.25 ? Between(790, 850, 1) : Between(450, 760, 1),
                After = precedence && sameSite.Length > 0 && random.NextUnit() < 0.15 ? [$"{sameSite[(int)(random.NextUnit() * sameSite.Length)] + 1}"] : [],
            });
        }
        string name = $"{count:00}-loads-{deliveries}-site{(deliveries > 1 ? "s" : "")}{(precedence ? "-precedence" : "")}{(hot ? "-hot" : "")}";
        return new(name, "invented", new()
        {
            Sites = [.. new[] { "base", "yard", "ridge", "hut", "mast" }.Take(sites)], BaseSite = 0, EmptyLegs = legs, Routes = routes, Loads = loads,
            Policy = new()
            {
                ReserveKg = 60, TankMaxKg = 260, StartFuelKg = null, RefuelFixedMinutes = 5, RefuelMinutesPerKg = 0.02, UpliftStepKg = 10,
                GroupByDeliverySite = false, BreakDueMinutes = hot ? 180 : null, BreakMinutes = 30, StartMinute = hot ? 720 : 480,
            },
        });
    }
}
