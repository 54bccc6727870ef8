using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Tests.Reporting.Printing;

public class CustomerPrintTests
{
    /// <summary>Words of what stays in the house: how it was flown, limits passed, events, who flew.</summary>
    public static readonly string[] Private = ["swing", "oversho", "fault", "torque", "exceed", "secret", "mechanic", "root", "snag", "go-around", "hover", "pilot"];

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Of_AnyReport_HoldsNoPrivateWord(bool large)
    {
        string text = Text(CustomerPrint.Of(large ? ReportedDays.Large : ReportedDays.SmallReport));
        Assert.All(Private, word => Assert.DoesNotContain(word, text, StringComparison.OrdinalIgnoreCase));
    }

    // Closed form: 2262 kg are 2.26 t, and 2262 / 0.45359237 = 4986.9 lb.
    [Theory]
    [InlineData(ShownUnits.M, "2.26 t", "Mass, kg")]
    [InlineData(ShownUnits.Lb, "4987 lb", "Mass, lb")]
    public void Of_Units_AsTheJobSays(ShownUnits units, string sum, string heading)
    {
        PrintedReport print = CustomerPrint.Of(ReportedDays.SmallReport with { Units = units });
        Assert.Contains(("Mass placed", sum), print.Parts.OfType<PrintedFacts>().Single().Pairs);
        Assert.Contains(print.Parts.OfType<PrintedTable>().First().Columns, c => c.Heading == heading);
    }

    [Fact]
    public void Of_WithoutInvoice_NoPriceAnywhere()
    {
        string with = Text(CustomerPrint.Of(ReportedDays.SmallReport)), without = Text(CustomerPrint.Of(ReportedDays.SmallReport, withInvoice: false));
        Assert.Contains("3860.00", with, StringComparison.Ordinal);
        Assert.Contains(CustomerPrint.InvoiceCaution, with, StringComparison.Ordinal);
        Assert.DoesNotContain("EUR", without, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_TwoDays_ATableForEachWithItsSum()
    {
        PrintedTable[] placed = [.. CustomerPrint.Of(ReportedDays.Large).Parts.OfType<PrintedTable>().Where(t => t.Columns[0].Heading == "Load" && t.Sum is not null)];
        Assert.Equal(["2026-06-01, local time", "2026-06-02, local time"], placed.Select(t => t.Caption));
        // Closed form: L01 to L34 without L22, and L35 to L65.
        Assert.Equal(["33 loads", "31 loads"], placed.Select(t => t.Sum![1]));
        Assert.All(placed.SelectMany(t => t.Rows), r => Assert.Equal(8, r.Count));
    }

    internal static string Text(PrintedReport report) => string.Join("\n", report.Parts.SelectMany(Words).Prepend(report.Footer).Prepend(report.Subtitle).Prepend(report.Title));

    private static IEnumerable<string> Words(PrintedPart part) => part switch
    {
        PrintedHeading h => [h.Text],
        PrintedParagraph p => [p.Text],
        PrintedList l => l.Items,
        PrintedFacts f => f.Pairs.SelectMany(p => new[] { p.Name, p.Value }),
        PrintedTable t => [t.Caption, .. t.Columns.Select(c => c.Heading), .. t.Rows.SelectMany(r => r), .. t.Sum ?? []],
        PrintedPicture p => [p.Title, .. p.Shapes.OfType<WordShape>().Select(w => w.Text)],
        _ => throw new NotSupportedException(part.ToString()),
    };
}
