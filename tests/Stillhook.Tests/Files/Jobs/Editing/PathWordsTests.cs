using Stillhook.Files.Jobs.Editing;

namespace Stillhook.Tests.Files.Jobs.Editing;

/// <summary>Expected values are common practice, no source: the labels of the form.</summary>
public class PathWordsTests
{
    private static readonly JobDocument Job = JobDocument.Read("""
        { "sites": [ { "name": "Quarry", "forecast": [ { "hour": "09:00" } ] } ], "loads": [ { "number": "B-7", "name": "stone bag" }, {} ], "rigging": [ { "name": "swivel 4" } ] }
        """)!;

    [Theory]
    [InlineData("sites[0].elevation", "Site 1 (Quarry), elevation")]
    [InlineData("sites[0].weather.qnh", "Site 1 (Quarry), weather as observed, QNH")]
    [InlineData("sites[0].forecast[0].temperature", "Site 1 (Quarry), forecast hour 1 (09:00), temperature")]
    [InlineData("loads[0].massKg", "Load B-7 (stone bag), mass")]
    [InlineData("loads[1].howKnown", "Load 2, how the mass is known")]
    [InlineData("rigging[0].inspectionDue", "Rigging part 1 (swivel 4), inspection due")]
    [InlineData("day.start", "Start and fuel, start")]
    [InlineData("nothing.ofThisKind", "nothing.ofThisKind")]
    public void Of_Path_IsSaidInLabels(string path, string said) => Assert.Equal(said, PathWords.Of(Job, path));

    [Theory]
    [InlineData("A plan needs a pilot aboard (role pilot and massKg).", "A plan needs a pilot aboard (role pilot and mass).")]
    [InlineData("Name a site with the use pickUp, or give that site this use.", "Name a site with the use pick-up, or give that site this use.")]
    [InlineData("policy.powerMarginPercent keeps power in hand", "Operator's rules, power margin keeps power in hand")]
    [InlineData("sites[0].elevation: found null.", "Site 1 (Quarry), elevation: found null.")]
    [InlineData("See docs/job-file.md, 12.5 kg of it; the line and the loads stay.", "See docs/job-file.md, 12.5 kg of it; the line and the loads stay.")]
    public void InText_KeysAndPaths_AreSaidAndOtherWordsStay(string text, string said) => Assert.Equal(said, PathWords.InText(Job, text));
}
