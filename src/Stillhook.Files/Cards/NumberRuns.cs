using System.Globalization;

namespace Stillhook.Files.Cards;

/// <summary>Numbers of loads that follow on one another, drawn together: 1 to 17, or L01 to L80.</summary>
internal static class NumberRuns
{
    private const int FewestDrawnTogether = 3;

    /// <summary>The numbers in their order; runs of three and more as first and last.</summary>
    public static string Of(IReadOnlyList<string> numbers) => string.Join(", ", Runs(numbers));

    private static IEnumerable<string> Runs(IReadOnlyList<string> numbers)
    {
        for (int i = 0; i < numbers.Count;)
        {
            int to = i;
            while (to + 1 < numbers.Count && Follows(numbers[to], numbers[to + 1]))
                to++;
            if (to - i + 1 >= FewestDrawnTogether)
                yield return $"{numbers[i]} to {numbers[to]}";
            else
                for (int k = i; k <= to; k++)
                    yield return numbers[k];
            i = to + 1;
        }
    }

    private static bool Follows(string a, string b)
    {
        (string word, long? here) = Parts(a);
        (string nextWord, long? next) = Parts(b);
        return word == nextWord && here is { } x && next == x + 1;
    }

    private static (string Word, long? Number) Parts(string number)
    {
        string word = number.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
        return (word, long.TryParse(number.AsSpan(word.Length), NumberStyles.None, CultureInfo.InvariantCulture, out long value) ? value : null);
    }
}
