using System.Globalization;
using System.Text.Json.Nodes;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>Tables pasted from a spreadsheet: cells divided by tabs, or by semicolons where there is no tab.</summary>
public static class PastedTable
{
    private static readonly string[] LoadColumns = ["number", "name", "mass", "howKnown", "family", "height", "delivery", "note"];

    /// <summary>Adds the loads of a pasted table to a job. A first row of names says what the columns are: the file's own words or the labels of the form.</summary>
    /// <param name="document">The job; changed only when nothing is wrong with the table.</param>
    /// <param name="text">As pasted.</param>
    /// <param name="mark">Mark before the decimals in the table; null takes the point.</param>
    /// <returns>What is wrong, each with its row; empty when the loads were added.</returns>
    public static IReadOnlyList<string> AddLoads(JobDocument document, string text, DecimalMark? mark = null)
    {
        ArgumentNullException.ThrowIfNull(document);
        mark ??= DecimalMark.Point;
        List<string[]> rows = Rows(text);
        if (rows.Count == 0)
            return ["Nothing was pasted. Copy the rows in the spreadsheet and paste them here."];
        List<string> wrong = [];
        List<(string Member, string Unit)?> columns = [.. LoadColumns.Select(c => ((string, string)?)(c, ""))];
        bool heading = rows[0].Count(c => Column(c) is not null) >= 2;
        if (heading)
        {
            columns = [.. rows[0].Select(Column)];
            wrong.AddRange(rows[0].Where(c => c.Length > 0 && Column(c) is null).Select(c =>
                $"Row 1: the column '{JobValue.Shown(c)}' is not known. Expected some of: {string.Join(", ", Loads.Members.Where(m => Simple(m)).Select(m => JobForm.Label(m.Name)))}."));
        }
        if (columns.All(c => c?.Member != "mass"))
            wrong.Add("Row 1: there is no column with the mass.");
        JobDocument copy = JobDocument.Read(document.Text, DisplayUnits.Feet.With(mark))!;
        List<(int Row, string Item)> added = [];
        for (int r = heading ? 1 : 0; r < rows.Count; r++)
        {
            if (rows[r].Skip(columns.Count).Any(c => c.Length > 0))
                wrong.Add($"Row {Count(r + 1)}: {Count(rows[r].Length)} cells, expected at most {Count(columns.Count)}.");
            string item = copy.Add("loads");
            added.Add((r + 1, item));
            for (int c = 0; c < Math.Min(columns.Count, rows[r].Length); c++)
                if (columns[c] is var (member, unit) && rows[r][c].Length > 0)
                    copy.Set(JobPath.Join(item, member), Word(member, rows[r][c] + (unit.Length > 0 && FieldText.Number(mark.Read(rows[r][c])) is not null ? " " + unit : "")));
            if (copy.Typed(JobPath.Join(item, "number")).Length == 0)
                copy.Set(JobPath.Join(item, "number"), Count(copy.Count("loads")));
            // Nobody said how it is known: then it is a guess.
            if (copy.Typed(JobPath.Join(item, "howKnown")).Length == 0)
                copy.Set(JobPath.Join(item, "howKnown"), "estimated");
        }
        JobForm form = JobForm.Of(copy);
        List<string> members = [.. LoadColumns.Concat(columns.Select(c => c?.Member).OfType<string>()).Distinct()];
        wrong.AddRange(from a in added from m in members from mistake in form.Field(JobPath.Join(a.Item, m)).Mistakes select $"Row {Count(a.Row)}, {JobForm.Label(m)}: {mistake}");
        if (wrong.Count > 0)
            return wrong;
        JsonArray list = document.List("loads", make: true)!;
        foreach (JsonNode? load in copy.List("loads", make: false)!.Skip(list.Count).ToList())
            list.Add(load!.DeepClone());
        return [];
    }

    /// <summary>Takes a chart over pressure altitude and temperature: the first row holds the temperatures, each row below an altitude and its values; an empty cell is one the page leaves empty.</summary>
    /// <param name="document">The job; changed only when the table can be read.</param>
    /// <param name="chartPath">Path of the chart's group.</param>
    /// <param name="text">As pasted.</param>
    /// <param name="feet">Altitudes are in ft, else in m.</param>
    /// <param name="pounds">Masses are in lb, else in kg.</param>
    /// <param name="mark">Mark before the decimals in the table; null takes the point.</param>
    public static IReadOnlyList<string> SetChart(JobDocument document, string chartPath, string text, bool feet, bool pounds, DecimalMark? mark = null)
    {
        ArgumentNullException.ThrowIfNull(document);
        mark ??= DecimalMark.Point;
        List<string[]> rows = Rows(text, keepEmptyCells: true);
        if (rows.Count < 3 || rows[0].Length < 3)
            return ["The table needs a first row of temperatures, and below it at least two rows, each with a pressure altitude and its values."];
        List<string> wrong = [];
        JsonArray temperatures = Numbers(rows[0].Skip(1), 1, wrong, mark), altitudes = [], values = [];
        for (int r = 1; r < rows.Count; r++)
        {
            altitudes.Add(Number(rows[r][0], r + 1, 1, wrong, mark));
            if (rows[r].Length - 1 > temperatures.Count)
                wrong.Add($"Row {Count(r + 1)}: {Count(rows[r].Length - 1)} values under {Count(temperatures.Count)} temperatures.");
            values.Add((JsonNode)new JsonArray([.. Enumerable.Range(1, temperatures.Count).Select(c => c < rows[r].Length && rows[r][c].Length > 0 ? Number(rows[r][c], r + 1, c + 1, wrong, mark) : null)]));
        }
        if (wrong.Count > 0)
            return wrong;
        JsonObject chart = JsonNode.Parse(document.Part(chartPath) ?? "{}") as JsonObject ?? [];
        foreach (string key in new[] { "pressureAltitudeM", "pressureAltitudeFt", "temperatureC", "temperatureF", "massKg", "massLb" })
            chart.Remove(key);
        if (chart["source"] is null)
            chart["source"] = "page not named";
        chart[feet ? "pressureAltitudeFt" : "pressureAltitudeM"] = altitudes;
        chart["temperatureC"] = temperatures;
        chart[pounds ? "massLb" : "massKg"] = values;
        document.Put(chartPath, chart.ToJsonString());
        return [];
    }

    /// <summary>Takes the torque page: the first row holds two empty or named cells and the masses; each row below an altitude, a temperature and the torques.</summary>
    public static IReadOnlyList<string> SetTorque(JobDocument document, string text, bool feet, bool pounds, DecimalMark? mark = null)
    {
        ArgumentNullException.ThrowIfNull(document);
        mark ??= DecimalMark.Point;
        List<string[]> rows = Rows(text, keepEmptyCells: true);
        if (rows.Count < 5 || rows[0].Length < 4)
            return ["The table needs a first row with two empty cells and the masses, and below it a row for every pressure altitude and temperature: altitude, temperature, torques."];
        List<string> wrong = [];
        JsonArray masses = Numbers(rows[0].Skip(2), 1, wrong, mark);
        List<decimal> altitudes = [], temperatures = [];
        Dictionary<(decimal, decimal), JsonArray> torques = [];
        for (int r = 1; r < rows.Count; r++)
        {
            if (Number(rows[r][0], r + 1, 1, wrong, mark) is not { } a || Number(rows[r].ElementAtOrDefault(1) ?? "", r + 1, 2, wrong, mark) is not { } t)
                continue;
            (decimal altitude, decimal temperature) = (a.GetValue<decimal>(), t.GetValue<decimal>());
            if (!altitudes.Contains(altitude))
                altitudes.Add(altitude);
            if (!temperatures.Contains(temperature))
                temperatures.Add(temperature);
            torques[(altitude, temperature)] = new([.. Enumerable.Range(2, masses.Count).Select(c => c < rows[r].Length && rows[r][c].Length > 0 ? Number(rows[r][c], r + 1, c + 1, wrong, mark) : null)]);
        }
        wrong.AddRange(from a in altitudes from t in temperatures where !torques.ContainsKey((a, t)) select string.Create(CultureInfo.InvariantCulture, $"There is no row for altitude {a} and temperature {t}."));
        if (wrong.Count > 0)
            return wrong;
        JsonObject page = JsonNode.Parse(document.Part("aircraft.hoverTorque") ?? "{}") as JsonObject ?? [];
        foreach (string key in new[] { "pressureAltitudeM", "pressureAltitudeFt", "temperatureC", "temperatureF", "massKg", "massLb", "torquePercent" })
            page.Remove(key);
        if (page["source"] is null)
            page["source"] = "page not named";
        page[feet ? "pressureAltitudeFt" : "pressureAltitudeM"] = new JsonArray([.. altitudes.Select(a => (JsonNode)a)]);
        page["temperatureC"] = new JsonArray([.. temperatures.Select(t => (JsonNode)t)]);
        page[pounds ? "massLb" : "massKg"] = masses;
        page["torquePercent"] = new JsonArray([.. altitudes.Select(a => (JsonNode)new JsonArray([.. temperatures.Select(t => (JsonNode)torques[(a, t)])]))]);
        document.Put("aircraft.hoverTorque", page.ToJsonString());
        return [];
    }

    /// <summary>A chart as it would be pasted; empty when there is none.</summary>
    public static string ChartText(JobDocument document, string chartPath)
    {
        ArgumentNullException.ThrowIfNull(document);
        if (document.Part(chartPath) is not { } part || JsonNode.Parse(part) is not JsonObject chart)
            return "";
        JsonArray? altitudes = List(chart, "pressureAltitude"), temperatures = List(chart, "temperature"), values = List(chart, "mass");
        if (altitudes is null || temperatures is null || values is null)
            return "";
        IEnumerable<string> rows = List(chart, "torque") is { } torques
            ? altitudes.SelectMany((a, i) => temperatures.Select((t, j) => string.Join('\t', [Shown(a), Shown(t), .. Cells(torques.ElementAtOrDefault(i) is JsonArray plane ? plane.ElementAtOrDefault(j) : null)])))
                .Prepend(string.Join('\t', ["altitude", "temperature", .. values.Select(Shown)]))
            : altitudes.Select((a, i) => string.Join('\t', [Shown(a), .. Cells(values.ElementAtOrDefault(i))])).Prepend(string.Join('\t', ["altitude", .. temperatures.Select(Shown)]));
        return string.Join('\n', rows);

        string Shown(JsonNode? value) => document.Mark.Shown(FieldText.Shown(value));

        IEnumerable<string> Cells(JsonNode? row) => row is JsonArray cells ? cells.Select(Shown) : [];
    }

    private static GroupShape Loads => GroupShape.Of(typeof(PlannedLoad));

    private static bool Simple(JobMember member) => member.Value.Kind is not (ShapeKind.Group or ShapeKind.List);

    /// <summary>What a column's heading means: a key with its unit, a member's name or its label, with the unit in brackets or behind it.</summary>
    private static (string Member, string Unit)? Column(string heading)
    {
        string plain = heading.Trim().Trim('*').Trim();
        if (Loads.TryFind(plain, out JobMember keyed, out UnitForm? unit) && Simple(keyed))
            return (keyed.Name, unit?.Symbol ?? "");
        string[] parts = plain.Split(['(', '[', ',', '/'], 2);
        string name = parts[0].Trim(), behind = parts.Length > 1 ? parts[1].Trim(')', ']', ' ') : "";
        foreach (JobMember member in Loads.Members.Where(Simple))
            foreach (string known in new[] { member.Name, JobForm.Label(member.Name), FieldText.Words(member.Name) })
            {
                if (name.Equals(known, StringComparison.OrdinalIgnoreCase) && (behind.Length == 0 || member.Value.Units.Any(u => u.Symbol.Equals(behind, StringComparison.OrdinalIgnoreCase))))
                    return (member.Name, behind);
                if (member.Value.Units.FirstOrDefault(u => name.Equals($"{known} {u.Symbol}", StringComparison.OrdinalIgnoreCase)) is { } named)
                    return (member.Name, named.Symbol);
            }
        return name.ToUpperInvariant() switch { "NO" or "NO." or "LOAD" or "#" => ("number", ""), "WEIGHT" => ("mass", behind), "WHAT" => ("name", ""), "KIND" => ("family", ""), "SITE" or "TO" => ("delivery", ""), _ => null };
    }

    /// <summary>A word of a choice as people say it, as the file has it.</summary>
    private static string Word(string member, string typed)
    {
        JobMember shape = Loads.Members.First(m => m.Name == member);
        return shape.Value.Words.FirstOrDefault(w => w.Equals(typed, StringComparison.OrdinalIgnoreCase) || JobForm.Say(w).Equals(typed, StringComparison.OrdinalIgnoreCase)) ?? typed;
    }

    private static List<string[]> Rows(string text, bool keepEmptyCells = false)
    {
        char divider = text.Contains('\t', StringComparison.Ordinal) ? '\t' : ';';
        return [.. text.ReplaceLineEndings("\n").Split('\n').Where(line => line.Trim().Length > 0).Select(line => (keepEmptyCells ? line.TrimEnd('\r') : line.TrimEnd()).Split(divider).Select(c => c.Trim().Trim('"').Trim()).ToArray())];
    }

    private static JsonArray Numbers(IEnumerable<string> cells, int row, List<string> wrong, DecimalMark mark) => new([.. cells.Select((c, i) => Number(c, row, i + 2, wrong, mark))]);

    private static JsonNode? Number(string cell, int row, int column, List<string> wrong, DecimalMark mark)
    {
        if (FieldText.Number(mark.Read(cell)) is { } number)
            return number;
        string hint = cell.AsSpan().IndexOfAny(',', '.') >= 0 ? $" Write a decimal {mark.Name}." : "";
        wrong.Add($"Row {Count(row)}, column {Count(column)}: '{JobValue.Shown(cell)}' is no number.{hint}");
        return null;
    }

    private static string Count(int n) => n.ToString(CultureInfo.InvariantCulture);

    private static JsonArray? List(JsonObject chart, string name) => chart.FirstOrDefault(e => e.Key.StartsWith(name, StringComparison.Ordinal)).Value as JsonArray;

}
