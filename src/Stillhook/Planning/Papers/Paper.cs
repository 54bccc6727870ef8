using System.Globalization;

namespace Stillhook.Planning.Papers;

/// <summary>A paper with a last valid day.</summary>
internal static class Paper
{
    public static CheckItem Dated(string code, string what, string path, string subject, DateOnly? until, DateOnly? day, string source)
    {
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, code, path, subject, text, source);
        if (until is not { } last)
            return Item(CheckVerdict.ToConfirm, $"{what}: not entered.");
        if (day is not { } on)
            return Item(CheckVerdict.ToConfirm, $"{what}: valid until {Text(last)}; the day of the job is not entered.");
        return last < on ? Item(CheckVerdict.Fails, $"{what}: ran out on {Text(last)}.") : Item(CheckVerdict.Passes, $"{what}: valid until {Text(last)}.");
    }

    public static string CrewPath(int index, string member) => string.Create(CultureInfo.InvariantCulture, $"crew[{index}].{member}");

    public static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
