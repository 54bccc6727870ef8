using System.Globalization;

namespace Stillhook.Planning.Rigging;

/// <summary>Whether a part may be used on the day as far as its inspection goes.</summary>
internal static class Inspection
{
    private const string Source = "WAC-296-45-67537";

    public static CheckItem Of(RiggingPart part, string path, DateOnly? day)
    {
        CheckItem Item(CheckVerdict verdict, string code, string member, string text, bool red = false) =>
            new(verdict, "rigging-inspection-" + code, $"{path}.{member}", part.Name, text, Source, red);
        if (part.Inspected is null && part.InspectionDue is null)
            return Item(CheckVerdict.ToConfirm, "not-entered", "inspectionDue", "Inspection not entered.", red: true);
        if (day is not { } on)
            return Item(CheckVerdict.ToConfirm, "not-judged", "inspectionDue", "Inspection not judged: the day of the job is not entered.");
        if (part.InspectionDue is { } due)
            return due < on
                ? Item(CheckVerdict.Fails, "passed", "inspectionDue", $"Inspection ran out on {Text(due)}.")
                : Item(CheckVerdict.Passes, "good", "inspectionDue", $"Inspected, good until {Text(due)}.");
        return part.Inspected > on
            ? Item(CheckVerdict.ToConfirm, "in-future", "inspected", $"Inspected on {Text(part.Inspected.Value)}, which is after the day of the job.")
            : Item(CheckVerdict.ToConfirm, "no-end", "inspectionDue", $"Inspected on {Text(part.Inspected!.Value)}; until when that holds is not entered.");
    }

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
