using System.Globalization;

namespace Stillhook.Files.Jobs;

/// <summary>Finds the line of a path such as <c>loads[3].mass</c>.</summary>
internal static class JobLines
{
    /// <summary>Line of the value, or of the nearest group around it when it isn't there.</summary>
    public static long LineOf(JobValue root, string path)
    {
        JobValue at = root;
        long line = root.Line;
        foreach (string step in path.Split('.', StringSplitOptions.RemoveEmptyEntries))
        {
            int bracket = step.IndexOf('[', StringComparison.Ordinal);
            JobEntry entry = at.Entries.FirstOrDefault(e => IsKeyOf(e.Key, bracket < 0 ? step : step[..bracket]));
            if (entry.Value is null)
                return line;
            (at, line) = (entry.Value, entry.Line);
            foreach (string index in bracket < 0 ? [] : step[bracket..].Split('[', ']').Where(i => i.Length > 0))
            {
                if (!int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int i) || i >= at.Items.Count)
                    return line;
                at = at.Items[i];
                line = at.Line;
            }
        }
        return line;
    }

    private static bool IsKeyOf(string key, string name) =>
        key.StartsWith(name, StringComparison.Ordinal) && (key.Length == name.Length || UnitForm.Endings.Contains(key[name.Length..]));
}
