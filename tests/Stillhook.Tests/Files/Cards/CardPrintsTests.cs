using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Cards;
using Stillhook.Files.Pictures;
using Stillhook.Pdf;
using Stillhook.Planning;
using Stillhook.Tests.Briefing;
using UnitsNet;

namespace Stillhook.Tests.Files.Cards;

/// <summary>The sheets as they are read, from PDF and page, in the plainest and in the darkest case.</summary>
public partial class CardPrintsTests
{
    private static readonly IReadOnlyList<PrintedCard> Example = CardPrints.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet), Dark = CardPrints.Of(BriefedJobs.DarkBrief, DisplayUnits.Feet);

    private static PrintedCard Card(IReadOnlyList<PrintedCard> cards, string name) => cards.First(c => c.Name.StartsWith(name, StringComparison.Ordinal));

    private static string Words(PrintedCard card) => PdfText.Words(new PdfCardMaker().Make(card));

    // One page a position with order, weights, escape side, stop words.
    [Fact]
    public void Of_Example_ASheetForEachPosition()
    {
        Assert.Equal(["cockpit-path-bend", "load-master-turning-place", "receiver-path-bend", "brief"], Example.Select(c => c.Name));
        string master = Words(Card(Example, "load-master"));
        foreach (string part in new[] { CardCautions.HookOn, CardCautions.ProvingLift, CardCautions.Weights, "WEAKEST PART", "bag slings", "timber chokers", "FUEL", "Checked by hand that it fits", "STOP", "1st stone bag", "ESTIMATED", "weighed" })
            Assert.Contains(part, master, StringComparison.Ordinal);
        Assert.All(BriefedJobs.ExampleBrief.LoadMasters[0].Loads, l => Assert.Matches($@"\b{l.Position} {l.Number} .*?\b{l.MassKg:0} (weighed|label|ESTIMATED) {Math.Floor(l.MostKg):0} \d\d:\d\d", master));
        string receiver = Words(Card(Example, "receiver"));
        foreach (string part in new[] { "north-west", "Escape side", "Stay out from under", "2.5 s", CardCautions.Receiver, CardCautions.LostRadio, "Hover", "Move down", "Emergency stop", "STOP", "GO AROUND", "comes from the south-east" })
            Assert.Contains(part, receiver, StringComparison.Ordinal);
    }

    // No numbers that a receiver can't use: nothing of altimeter, setting, power, course or sink.
    [Fact]
    public void Of_Receiver_HasNothingOfTheCockpit()
    {
        string text = Words(Card(Example, "receiver")) + Words(Card(Dark, "receiver"));
        Assert.DoesNotMatch(CockpitWords(), text);
    }

    [Fact]
    public void Of_Crew_HasPlanHazardsSpotsContactsAndRoomToWrite()
    {
        PrintedCard brief = Card(Example, "brief");
        string words = Words(brief);
        foreach (string part in new[] { "pilot B", "load master C", "Hook-up nobody entered", "250/5 kt", "070/5 kt", "hut terrace", "meadow below the road", "+43 000 000 01", "What is different today?", "larch", CardCautions.LostRadio })
            Assert.Contains(part, words, StringComparison.Ordinal);
        Assert.Equal(2, brief.Parts.OfType<CardBlank>().Count());
    }

    // Eighty loads with long names and umlauts, no wind, no rotor, an unmarked sling, nothing else entered: what is missing is said, and nothing is lost off the edge.
    [Fact]
    public void Of_DarkestCase_SaysWhatIsMissing()
    {
        string master = Words(Card(Dark, "load-master")), receiver = Words(Card(Dark, "receiver")), brief = Words(Card(Dark, "brief")), cockpit = Words(Card(Dark, "cockpit"));
        for (int i = 1; i <= 80; i++)
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"L{i:00}"), master, StringComparison.Ordinal);
        Assert.Contains("NO MARK", master, StringComparison.Ordinal);
        Assert.Contains("No ring under a hook is entered", master, StringComparison.Ordinal);
        Assert.Contains("Böschungsstützmauer", receiver + master, StringComparison.Ordinal);
        Assert.Contains("not entered", receiver, StringComparison.Ordinal);
        Assert.Contains("Nobody's place is entered", receiver, StringComparison.Ordinal);
        Assert.Contains("NONE ENTERED", brief, StringComparison.Ordinal);
        Assert.Contains("nobody entered", brief, StringComparison.Ordinal);
        Assert.Contains("wind not given", brief, StringComparison.Ordinal);
        Assert.Matches("wind not given|No wind given|NO APPROACH", cockpit);
    }

    public static TheoryData<bool, string> Sheets => new() { { true, "ft" }, { true, "m" }, { true, "lb" }, { false, "ft" }, { false, "m" } };

    // Every letter of every page lies inside the paper's margins, A5 being 420 x 595 points, and no word over another: what does not fit is wrapped.
    [Theory, MemberData(nameof(Sheets))]
    public void Make_EverySheet_LiesInsideItsMarginsAndNoWordOverAnother(bool example, string units)
    {
        foreach (PrintedCard card in CardPrints.Of(example ? BriefedJobs.ExampleBrief : BriefedJobs.DarkBrief, DisplayUnits.Named(units)))
        {
            IReadOnlyList<PlacedWord> words = PdfText.Placed(new PdfCardMaker().Make(card));
            Assert.NotEmpty(words);
            Assert.All(words, w => Assert.True(w is { PageWidth: 420, PageHeight: 595 }, $"{w.PageWidth} x {w.PageHeight}"));
            PlacedWord[] outside = [.. words.Where(w => w.Left < 20 || w.Right > 400 || w.Top < 14 || w.Bottom > 595 - 8)];
            Assert.True(outside.Length == 0, $"{card.Name}: {string.Join(", ", outside.Take(5).Select(w => $"{w.Text} at {w.Left:0}..{w.Right:0}, {w.Top:0}..{w.Bottom:0}"))}");
            foreach (IGrouping<int, PlacedWord> page in words.GroupBy(w => w.Page))
                NoneOver(card.Name, [.. page.OrderBy(w => w.Top)]);
        }
    }

    private static void NoneOver(string name, PlacedWord[] words)
    {
        for (int i = 0; i < words.Length; i++)
            for (int k = i + 1; k < words.Length && words[k].Top < words[i].Bottom - 3; k++)
                Assert.False(words[i].Right - 0.5 > words[k].Left && words[k].Right - 0.5 > words[i].Left && Math.Abs(words[i].BaseLine - words[k].BaseLine) < 3, $"{name} page {words[i].Page}: '{words[i].Text}' and '{words[k].Text}'");
    }

    [Fact]
    public void Make_AllSheetsTwiceUnderGermanCulture_SameBytes()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        byte[][] here = Make(), comma;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = Make();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.Equal(here, comma);

        static byte[][] Make()
        {
            using MemoryStream json = new();
            BriefDocuments.Write(json, BriefedJobs.DarkBrief, DisplayUnits.Metres);
            return [json.ToArray(), .. CardPrints.Of(BriefedJobs.DarkBrief, DisplayUnits.Metres).SelectMany(c => new[] { new PdfCardMaker().Make(c), System.Text.Encoding.UTF8.GetBytes(CardHtml.Page(c)) })];
        }
    }

    // Kilograms never stand beside pounds, metres of height never beside feet.
    [Fact]
    public void Of_Pounds_NoKilogramOnAnySheet() => Assert.All(CardPrints.Of(BriefedJobs.ExampleBrief, DisplayUnits.Pounds), c => Assert.DoesNotMatch(Kilograms(), Words(c)));

    [Fact]
    public void Of_Metres_NoKnotOnAnySheet() => Assert.All(CardPrints.Of(BriefedJobs.ExampleBrief, DisplayUnits.Metres), c => Assert.DoesNotMatch(Knots(), Words(c)));

    // Wind and one new load: only lines that changed stand on the re-brief.
    [Fact]
    public void Of_WindAndOneNewLoad_RebriefHasOnlyWhatChanged()
    {
        EarlierBrief since = new(BriefedJobs.ExampleBrief.Issue.At, "ft", BriefLines.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet), []);
        LiftRequest job = BriefedJobs.Example with { Loads = [.. BriefedJobs.Example.Loads, BriefedJobs.Example.Loads[^2] with { Number = "25", Name = "gate", After = [] }] };
        job = new ApproachShift(Wind: new Stillhook.Debriefing.Wind(230, Speed.FromKnots(7))).Applied(job);
        Brief now = BriefedJobs.Of(job, BriefedJobs.Issue with { At = BriefedJobs.Issue.At.AddHours(3) });
        IReadOnlyList<BriefChange> changes = BriefDifference.Between(since.Lines, BriefLines.Of(now, DisplayUnits.Feet));

        Assert.Contains(changes, c => c is { Topic: "Loads", Name: "load 25", Was: null });
        Assert.Contains(changes, c => c is { Topic: "Weather", Name: "path bend" } && c.Was!.Contains("250/5 kt", StringComparison.Ordinal) && c.Now!.Contains("230/7 kt", StringComparison.Ordinal));
        Assert.Contains(changes, c => c is { Topic: "Approach to path bend", Name: "wind", Was: "250/5 kt", Now: "230/7 kt" });
        Assert.All(changes, c => Assert.NotEqual(c.Was, c.Now));
        Assert.DoesNotContain(changes, c => c.Topic is "Contacts" or "Emergency spots" or "Who does what" or "Rigging");
        Assert.DoesNotContain(changes, c => c.Name == "QNH");

        PrintedCard card = CardPrints.Of(now, DisplayUnits.Feet, since)[0];
        string words = Words(card);
        Assert.StartsWith(CardCautions.Advice, words, StringComparison.Ordinal);
        Assert.Equal(changes.Count, card.Parts.OfType<CardTable>().Sum(t => t.Rows.Count));
        Assert.Contains("load 25", words, StringComparison.Ordinal);
        Assert.DoesNotContain("hut keeper", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_SameBriefAgain_RebriefSaysNothingChanged()
    {
        EarlierBrief since = new(BriefedJobs.Issue.At, "ft", BriefLines.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet), []);
        Assert.Contains("Nothing changed.", Words(CardPrints.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet, since)[0]), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_EarlierBriefInOtherUnits_IsRefused() =>
        Assert.Throws<ArgumentException>(() => CardPrints.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet, new(BriefedJobs.Issue.At, "m", [], [])));

    // What is written can be read back, fact by fact; anything else is refused with a reason.
    [Fact]
    public void Read_WhatWasWritten_GivesTheSameLines()
    {
        using MemoryStream json = new();
        BriefDocuments.Write(json, BriefedJobs.ExampleBrief, DisplayUnits.Feet);
        EarlierBrief read = BriefDocuments.Read(System.Text.Encoding.UTF8.GetString(json.ToArray()), out string? wrong)!;
        Assert.Null(wrong);
        Assert.Equal(BriefLines.Of(BriefedJobs.ExampleBrief, DisplayUnits.Feet), read.Lines);
        Assert.Equal((BriefedJobs.Issue.At, "ft"), (read.IssuedAt, read.Units));
        Assert.Equal(Example.Select(c => c.Name), read.Cards);
        foreach (string spoilt in new[] { "", "[]", "{}", "{\"schema\":\"stillhook-plan\"}", "{\"schema\":\"stillhook-brief\"}", "{\"schema\":\"stillhook-brief\",\"issuedAt\":\"x\",\"lines\":[]}", "{\"schema\":1}" })
        {
            Assert.Null(BriefDocuments.Read(spoilt, out string? why));
            Assert.NotNull(why);
        }
    }

    // One code for page and paper, black and white: greys alone, nothing fetched, well-formed, headings in order.
    [Fact]
    public void Page_EverySheet_IsWellFormedAndGreyOnly()
    {
        foreach (PrintedCard card in Example.Concat(Dark))
        {
            XDocument page = XDocument.Parse(CardHtml.Page(card).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal));
            int[] levels = [.. page.Descendants().Where(e => e.Name.LocalName is ['h', >= '1' and <= '6']).Select(e => e.Name.LocalName[1] - '0')];
            Assert.Equal(1, levels[0]);
            Assert.All(levels.Skip(1), l => Assert.Equal(2, l));
            Assert.DoesNotContain("http-equiv=\"refresh\"", CardHtml.Page(card), StringComparison.Ordinal);
        }
        Assert.All(Colours().Matches(CardHtml.Looks).Select(m => m.Groups[1].Value), c => Assert.True(c.Length == 3 ? c[0] == c[1] && c[1] == c[2] : c[..2] == c[2..4] && c[2..4] == c[4..], c));
    }

    // A fragment fits among the headings of another page, and what people typed can't break out of it.
    [Fact]
    public void Fragment_TypedMarkup_IsEscaped()
    {
        Brief brief = BriefedJobs.Of(BriefedJobs.MarkCard with { Job = "<script>alert(1)</script> & co", Loads = [BriefedJobs.MarkCard.Loads[0] with { Name = "<b>beam</b>" }] });
        string fragment = string.Concat(CardPrints.Of(brief, DisplayUnits.Feet).Select(c => CardHtml.Fragment(c, 2)));
        Assert.DoesNotContain("<script", fragment, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>", fragment, StringComparison.Ordinal);
        Assert.Contains("<h2 class=\"title\">", fragment, StringComparison.Ordinal);
        Assert.DoesNotContain("<h1", fragment, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"QNH|hPa|inHg|ft/min|\bkt\b|torque|ltimeter|°|\bsink|%", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex CockpitWords();

    [GeneratedRegex(@"\bkg\b|\bhPa\b", RegexOptions.CultureInvariant)]
    private static partial Regex Kilograms();

    [GeneratedRegex(@"\bkt\b|ft/min|\blb\b", RegexOptions.CultureInvariant)]
    private static partial Regex Knots();

    [GeneratedRegex("#([0-9a-f]{3,6})\\b", RegexOptions.CultureInvariant)]
    private static partial Regex Colours();
}
