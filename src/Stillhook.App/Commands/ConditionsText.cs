using Stillhook.Adjusting;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning.Rechecking;

namespace Stillhook.App.Commands;

/// <summary>The shift re-check as a person reads it between loads: what stops, what to do, the marks of every delivery site, what was not read again.</summary>
/// <param name="output">Where to.</param>
/// <param name="now">The re-check.</param>
/// <param name="shift">What was read.</param>
/// <param name="allDelivered">Every load of the list is delivered.</param>
/// <param name="units">Units to show.</param>
internal sealed class ConditionsText(TextWriter output, ConditionsNow now, Shift shift, bool allDelivered, DisplayUnits units)
{
    /// <summary>Land and re-brief.</summary>
    public bool Stops => now.Stops;

    /// <summary>Writes it.</summary>
    public void Write()
    {
        output.WriteLine();
        output.WriteLine(Cautions.Plan);
        output.WriteLine($"Read now{(shift.Minute is { } minute ? ", " + Planning.ClockText.Of(minute) : "")}");
        new RecheckText(output, now.Recheck, units).WriteChanges();
        if (!now.Recheck.Before.IsPlanned)
            output.WriteLine("      The job is not complete enough to say which loads still lift: stillhook plan says what is missing.");
        if (allDelivered)
            output.WriteLine("      Every load of the list is delivered; the marks are for the heaviest of them.");
        if (shift.QnhPa is not null && !now.Stops)
            output.WriteLine("      An altimeter reading in the lines above is for the setting it names; the marks below are for this one.");
        foreach (string stands in now.NotReadAgain)
            output.WriteLine("      " + units.Sentence(stands));
        foreach (SiteMarks site in now.Sites)
            Write(site);
    }

    private void Write(SiteMarks site)
    {
        output.WriteLine();
        output.WriteLine(site.Site);
        foreach (string change in site.Changes)
            output.WriteLine("  " + units.Sentence(change));
        if (site.Changes.Count == 0)
            output.WriteLine("  No mark, course or gate moved by a step that a pilot could fly.");
        if (site.After.Situation is null)
            output.WriteLine("  No approach can be planned from what the job says: stillhook approach says what is missing.");
        else if (site.After.IsOffered)
            new ApproachText(output, site.After, units).WriteGates();
    }
}
