using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.Tests.Files.Jobs.Editing;

/// <summary>Expected values are common practice, no source: what the form promises.</summary>
public class PastedTableTests
{
    // Closed form: the same digits with the other mark.
    [Fact]
    public void Tables_UnderTheComma_AreTheSameNumbersAndComeBackAsPasted()
    {
        JobDocument job = JobDocument.Read("""{ "job": "x" }""", DisplayUnits.Feet.With(DecimalMark.Comma))!;
        Assert.Empty(PastedTable.AddLoads(job, "number\tmass kg\n1\t720,5", DecimalMark.Comma));
        Assert.Contains("\"massKg\": 720.5", job.Text, StringComparison.Ordinal);
        const string chart = "altitude\t-10\t0,5\n0\t1700\t1650,5\n2000\t1600\t1550";
        Assert.Empty(PastedTable.SetChart(job, "aircraft.hoverOutOfGroundEffect", chart, feet: true, pounds: false, DecimalMark.Comma));
        Assert.Equal(chart, PastedTable.ChartText(job, "aircraft.hoverOutOfGroundEffect"));
        Assert.Equal(chart.Replace(',', '.'), PastedTable.ChartText(JobDocument.Read(job.Text)!, "aircraft.hoverOutOfGroundEffect"));
        Assert.Contains("'1.700' is no number. Write a decimal comma.", Assert.Single(PastedTable.SetChart(job, "aircraft.hoverOutOfGroundEffect", chart.Replace("1700", "1.700", StringComparison.Ordinal), feet: true, pounds: false, DecimalMark.Comma)), StringComparison.Ordinal);
    }

    [Fact]
    public void AddLoads_WithNames_TakesColumnsByName()
    {
        JobDocument job = JobDocument.New("x");
        IReadOnlyList<string> wrong = PastedTable.AddLoads(job, "Number\tName\tMass (lb)\tHow the mass is known\r\nA1\trock bag\t1600\tweighed\r\nA2\trock bag\t1590\tlabel\r\n");

        Assert.Empty(wrong);
        LiftRequest request = Read(job).Request;
        Assert.Equal(["A1", "A2"], request.Loads.Select(l => l.Number));
        Assert.Equal(1590, request.Loads[1].Mass.Pounds, 6);
        Assert.Equal(MassKnownBy.Label, request.Loads[1].HowKnown);
    }

    // Closed form: what stands in the row.
    [Fact]
    public void AddLoads_WithoutNames_TakesTheOrderOfTheHint()
    {
        JobDocument job = JobDocument.New("x");
        Assert.Empty(PastedTable.AddLoads(job, "1;stone bag;720;weighed;stone bag;0.8\n2;timber;465;;timber"));
        LiftRequest request = Read(job).Request;
        Assert.Equal(0.8, request.Loads[0].Height!.Value.Meters, 9);
        // Nobody said how it is known: a guess.
        Assert.Equal(MassKnownBy.Estimated, request.Loads[1].HowKnown);
    }

    [Fact]
    public void AddLoads_OneBadRow_SaysWhichAndAddsNothing()
    {
        JobDocument job = JobDocument.New("x");
        string before = job.Text;
        IReadOnlyList<string> wrong = PastedTable.AddLoads(job, "1\tstone bag\t720\tweighed\n2\tstone bag\tseven hundred\tweighed");
        Assert.Contains("Row 2, Mass: 'seven hundred' is no number.", Assert.Single(wrong), StringComparison.Ordinal);
        Assert.Equal(before, job.Text);
    }

    [Fact]
    public void SetChart_TableAndBack_IsTheSame()
    {
        JobDocument job = JobDocument.New("x");
        const string table = "altitude\t0\t10\t20\n0\t2500\t2480\t2400\n4000\t2400\t2300\t";
        Assert.Empty(PastedTable.SetChart(job, "aircraft.hoverOutOfGroundEffect", table, feet: true, pounds: false));
        HoverChart chart = Read(job).Request.Aircraft!.HoverOutOfGroundEffect!;
        Assert.Equal(4000, chart.PressureAltitude[1].Feet, 6);
        Assert.Equal(2300, chart.Mass[1][1]!.Value.Kilograms, 6);
        Assert.Null(chart.Mass[1][2]);
        Assert.Equal(table, PastedTable.ChartText(job, "aircraft.hoverOutOfGroundEffect"));
    }

    [Fact]
    public void SetTorque_TableAndBack_IsTheSame()
    {
        JobDocument job = JobDocument.New("x");
        const string table = "altitude\ttemperature\t1600\t1800\n0\t0\t58\t66\n0\t20\t59\t67\n2000\t0\t59\t67\n2000\t20\t60\t";
        Assert.Empty(PastedTable.SetTorque(job, table, feet: true, pounds: false));
        Assert.Equal(table, PastedTable.ChartText(job, "aircraft.hoverTorque"));
        Assert.Contains("There is no row for altitude 2000 and temperature 20.", PastedTable.SetTorque(job, table.Replace("\n2000\t20\t60\t", "\n4000\t0\t61\t70", StringComparison.Ordinal), true, false));
    }

    [Theory]
    [InlineData("", "The table needs")]
    [InlineData("x\t0\t10\n0\t2500\t24x0\n2000\t2400\t2300", "Row 2, column 3: '24x0' is no number.")]
    [InlineData("x\t0\t10\n0\t2500\t2400\t2300\n2000\t2400\t2300", "Row 2: 3 values under 2 temperatures.")]
    [InlineData("x\t0\t10\n0\t2500,5\t2400\n2000\t2400\t2300", "Write a decimal point.")]
    public void SetChart_BadTable_SaysWhereAndChangesNothing(string table, string said)
    {
        JobDocument job = JobDocument.New("x");
        string before = job.Text;
        Assert.Contains(PastedTable.SetChart(job, "aircraft.hoverOutOfGroundEffect", table, true, false), w => w.Contains(said, StringComparison.Ordinal));
        Assert.Equal(before, job.Text);
    }

    private static JobFile Read(JobDocument job) => JobFile.Read(job.Text);
}
