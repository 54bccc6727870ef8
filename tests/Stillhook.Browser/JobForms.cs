using System.Globalization;
using Microsoft.Playwright;
using Stillhook.Files.Jobs.Editing;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>Fills the Job page in as a person does. The figures are those of the invented example.</summary>
internal static class JobForms
{
    private static readonly JobDocument Example = JobDocument.Read(DemoText())!;

    /// <summary>The example job's text, as the program carries it.</summary>
    public static string DemoText()
    {
        using StreamReader reader = new(typeof(Stillhook.App.Serving.WebServer).Assembly.GetManifestResourceStream("path-repair.json")!);
        return reader.ReadToEnd();
    }

    /// <summary>Makes a job and fills in every part of it, from an empty store to 'Ready to plan'.</summary>
    /// <param name="page">Any page of the program.</param>
    /// <param name="address">Address of the program.</param>
    /// <param name="loads">How many of the example's loads.</param>
    /// <returns>Address of the job.</returns>
    public static async Task<string> Make(IPage page, string address, int loads)
    {
        await page.GotoAsync(address + "/jobs");
        await page.GetByLabel("What is the work called?").FillAsync("Path repair, typed in (invented)");
        await page.GetByLabel("Day").FillAsync("2025-09-16");
        await page.GetByLabel("Your name").FillAsync("planner A");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the job" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Path repair, typed in");
        string job = new Uri(page.Url).GetLeftPart(UriPartial.Path);

        await Same(page, "timeZone", "customer", "day.start", "day.latestEnd", "day.refuelStop", "day.refuelRate");
        for (int i = 0; i < Example.Count("crew"); i++)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Add a person", Exact = true }).ClickAsync();
            await Same(page, $"crew[{i}].name", $"crew[{i}].role", $"crew[{i}].mass");
        }
        await Next(page, "Sites");
        for (int i = 0; i < Example.Count("sites"); i++)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Add a site" }).ClickAsync();
            await Same(page, [.. new[] { "name", "use", "latitude", "longitude", "elevation", "elevationFrom", "fuel", "crewClearSide", "recon.altimeter", "recon.qnh", "recon.time", "recon.temperature",
                "weather.qnh", "weather.temperature", "weather.time", "weather.dewPoint", "weather.wind.from", "weather.wind.speed" }.Select(m => $"sites[{i}].{m}")]);
        }
        await Next(page, "Aircraft");
        await Same(page, "aircraft.name", "aircraft.equippedMass", "aircraft.equippedMassSource", "aircraft.hookLimit", "aircraft.externalGrossLimit", "aircraft.torqueLimit",
            "aircraft.fuel.tank", "aircraft.fuel.burnLoaded", "aircraft.fuel.burnEmpty", "aircraft.fuel.burnHover",
            "aircraft.speeds.loaded", "aircraft.speeds.empty", "aircraft.speeds.hoverAtPickUp", "aircraft.speeds.hoverAtDelivery",
            "aircraft.rotor.radius", "aircraft.rotor.blades", "aircraft.rotor.chord", "aircraft.rotor.tipSpeed", "aircraft.rotor.flatPlateArea");
        await page.Locator("#aircraft-hoverOutOfGroundEffect textarea").FillAsync(PastedTable.ChartText(Example, "aircraft.hoverOutOfGroundEffect"));
        await page.Locator("#aircraft-hoverOutOfGroundEffect").GetByRole(AriaRole.Button, new() { Name = "Take the table" }).ClickAsync();
        await Same(page, "aircraft.hoverOutOfGroundEffect.source", "aircraft.hoverOutOfGroundEffect.enteredBy");
        await page.Locator("#aircraft-hoverTorque textarea").FillAsync(PastedTable.ChartText(Example, "aircraft.hoverTorque"));
        await page.Locator("#aircraft-hoverTorque").GetByRole(AriaRole.Button, new() { Name = "Take the table" }).ClickAsync();
        await Expect(page.Locator("#aircraft-hoverTorque table")).ToBeVisibleAsync();
        await Next(page, "Line and rigging");
        await Same(page, "line.length", "line.rigging", "line.dragArea");
        for (int i = 0; i < Example.Count("rigging"); i++)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Add a part" }).ClickAsync();
            await Same(page, [.. JobForm.Members("rigging[0]").Select(m => $"rigging[{i}].{m}")]);
        }
        await Next(page, "Loads");
        string[] columns = ["number", "name", "mass", "howKnown", "uncertainty", "family", "shape", "height", "dragArea"];
        await page.GetByLabel("Rows of loads").FillAsync(string.Join('\n', Enumerable.Range(0, loads).Select(i => string.Join('\t', columns.Select(c => Example.Typed(FormattableString.Invariant($"loads[{i}].{c}"))))).Prepend(string.Join('\t', columns))));
        await page.GetByRole(AriaRole.Button, new() { Name = "Add these loads" }).ClickAsync();
        await Expect(page.Locator("[data-items=loads] tbody tr")).ToHaveCountAsync(loads);
        await page.GetByRole(AriaRole.Link, new() { Name = "More of load 1", Exact = true }).ClickAsync();
        await Same(page, "loads[0].attachment.legs", "loads[0].attachment.legAngle", "loads[0].attachment.sling.name", "loads[0].attachment.sling.kind", "loads[0].attachment.sling.ratedLoad",
            "loads[0].attachment.sling.mass", "loads[0].attachment.sling.inspected", "loads[0].attachment.sling.inspectionDue");
        await page.GetByRole(AriaRole.Button, new() { Name = "Hang every load without a sling like the first one" }).ClickAsync();
        await Next(page, "Rules and quote");
        await Expect(page.Locator("[data-needs] h2")).ToHaveTextAsync("Ready to plan");
        return job;
    }

    /// <summary>Types what the example has into fields, one after the other; waits until the program took them.</summary>
    public static async Task Same(IPage page, params string[] paths)
    {
        foreach (string path in paths)
            if (Example.Typed(path) is { Length: > 0 } value)
                await Type(page, path, Example.UnitOf(path) is { Length: > 0 } unit ? $"{value} {unit}" : value);
        await Saved(page);
    }

    /// <summary>Types into one field.</summary>
    public static async Task Type(IPage page, string path, string value)
    {
        ILocator field = page.Locator($"[name=\"f:{path}\"]");
        foreach (ILocator more in await page.Locator("details.more:not([open])", new() { Has = field }).AllAsync())
            await more.Locator("> summary").ClickAsync();
        if (await field.EvaluateAsync<string>("f => f.tagName") == "SELECT")
            await field.SelectOptionAsync(value);
        else
        {
            await field.FillAsync(value);
            await field.DispatchEventAsync("change");
        }
    }

    /// <summary>Waits until everything typed is kept by the program.</summary>
    public static Task Saved(IPage page) => Expect(page.Locator("[data-saved]")).ToHaveTextAsync("Saved.");

    private static async Task Next(IPage page, string part)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = $"Next: {part}" }).ClickAsync();
        await Expect(page.Locator("h2").First).ToHaveTextAsync(part);
    }

}
