namespace Stillhook.Planning;

/// <summary>Finds the word that was probably meant.</summary>
public static class NearestWord
{
    private const int LongestWord = 60, MostWords = 200;

    /// <summary>The word fewest changes away from what was written; null when none is near: at most one change in three letters, never all of them.</summary>
    /// <remarks>Letter case counts for nothing; long texts and long lists are not searched.</remarks>
    public static string? To(string written, IReadOnlyCollection<string> words)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(words);
        if (written.Length is 0 or > LongestWord || words.Count > MostWords)
            return null;
        string? nearest = null;
        int fewest = Math.Min(written.Length, Math.Max(1, written.Length / 3) + 1);
        foreach (string word in words.Where(w => Math.Abs(w.Length - written.Length) < fewest))
        {
            int changes = Changes(written, word);
            if (changes < fewest)
                (nearest, fewest) = (word, changes);
        }
        return nearest;
    }

    /// <summary>Letters to insert, remove, replace or swap with their neighbour to make one word the other (optimal string alignment).</summary>
    internal static int Changes(string a, string b)
    {
        int[] before = new int[b.Length + 1], last = new int[b.Length + 1], row = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++)
            last[j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                row[j] = Math.Min(Math.Min(last[j] + 1, row[j - 1] + 1), last[j - 1] + (Same(a[i - 1], b[j - 1]) ? 0 : 1));
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]))
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
            }
            (before, last, row) = (last, row, before);
        }
        return last[b.Length];
    }

    private static bool Same(char a, char b) => char.ToUpperInvariant(a) == char.ToUpperInvariant(b);
}
