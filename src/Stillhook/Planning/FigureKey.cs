using System.Text;

namespace Stillhook.Planning;

/// <summary>Makes names that people gave into parts of a figure's key, which somebody has to type.</summary>
internal static class FigureKey
{
    /// <summary>Lower case, letters and digits kept, all else one hyphen: 'Swivel 3 t' becomes <c>swivel-3-t</c>; <c>unnamed</c> when nothing is left.</summary>
    public static string Part(string name)
    {
        StringBuilder key = new();
        foreach (char c in name)
            if (char.IsLetterOrDigit(c))
                key.Append(char.ToLowerInvariant(c));
            else if (key.Length > 0 && key[^1] != '-')
                key.Append('-');
        string text = key.ToString().TrimEnd('-');
        return text.Length > 0 ? text : "unnamed";
    }

    /// <summary>The same, with -2, -3 … behind a name that was used before.</summary>
    public static string Unique(string name, HashSet<string> used)
    {
        string part = Part(name), key = part;
        for (int n = 2; !used.Add(key); n++)
            key = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{part}-{n}");
        return key;
    }
}
