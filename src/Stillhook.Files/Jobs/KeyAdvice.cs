using Stillhook.Planning;

namespace Stillhook.Files.Jobs;

/// <summary>What an unknown key probably should have been.</summary>
internal static class KeyAdvice
{
    private const int LongestEnding = 9;

    /// <summary>How to mend it: the right unit ending, the nearest key, or the group where the key belongs.</summary>
    public static string For(GroupShape group, string key)
    {
        if (group.Members.Select(m => RightUnit(m, key)).FirstOrDefault(k => k is not null) is { } keys)
            return $"The key carries its unit: write {keys}.";
        if (NearestWord.To(key, [.. group.Keys]) is { } nearest)
            return $"Did you mean '{nearest}'?";
        return Elsewhere(key) is { } place ? $"This key belongs in {place}." : "Check its spelling and its unit ending against docs/job-file.md.";
    }

    // 'mass', 'massKG' and 'lengthMt' are the right name with no unit or one that is not known here.
    private static string? RightUnit(JobMember member, string key)
    {
        if (member.Value.Units.Count == 0 || !key.StartsWith(member.Name, StringComparison.OrdinalIgnoreCase))
            return null;
        string ending = key[member.Name.Length..].TrimStart('_', '-', ' ');
        UnitForm? meant = ending.Length > LongestEnding ? null : member.Value.Units.LastOrDefault(u => ending.StartsWith(u.Ending, StringComparison.OrdinalIgnoreCase));
        if (meant is not null)
            return member.Name + meant.Ending;
        return ending.Length == 0 || UnitForm.Endings.Contains(ending) ? member.KeysInWords : null;
    }

    private static string? Elsewhere(string key)
    {
        foreach ((string path, GroupShape group) in GroupShape.Of(typeof(LiftRequest)).Nested())
            if (group.Keys.Contains(key, StringComparer.Ordinal))
                return path.Length == 0 ? "the outermost group" : $"'{path}'";
        return null;
    }
}
