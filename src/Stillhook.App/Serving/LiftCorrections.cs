using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>What a person typed to correct a lift, and what stands against it.</summary>
/// <param name="Number">Number of the lift.</param>
/// <param name="Typed">As typed, by field; empty when the form was only opened.</param>
/// <param name="Mistakes">What can't be used, by field.</param>
/// <param name="Meanwhile">What somebody else changed since the form was opened, in sentences.</param>
public sealed record CorrectionDraft(int Number, IReadOnlyDictionary<string, string> Typed, IReadOnlyDictionary<string, string> Mistakes, IReadOnlyList<string> Meanwhile)
{
    /// <summary>A form that was only opened.</summary>
    public static CorrectionDraft Empty(int number) => new(number, new Dictionary<string, string>(), new Dictionary<string, string>(), []);

    /// <summary>Whether nothing was kept.</summary>
    public bool IsRefused => Mistakes.Count + Meanwhile.Count > 0;
}

/// <summary>Takes corrections in: each value was read before it was changed, and one that somebody else changed in between is never written over unseen.</summary>
internal sealed class LiftCorrections(ServingOptions options)
{
    /// <summary>Name under which the form sends what a field held when it was opened.</summary>
    public const string Read = "read-";

    /// <summary>Name of the button that takes a field's corrections back.</summary>
    public const string TakeBack = "take-back";

    private const int LongestName = 80, LongestReason = 200;
    private const double RoomS = 3600;
    private readonly Lock guard = new();

    /// <summary>Keeps what was typed, or says why not; null when there is no such lift.</summary>
    public CorrectionDraft? Take(OpenFlight flight, int number, IReadOnlyDictionary<string, string> typed, DisplayUnits units)
    {
        // Reading and writing stay together, so that two forms sent at the same moment are taken one after the other.
        lock (guard)
        {
            if (options.Store.Lifts.Find(flight.Flight.Id, number) is not { } now)
                return null;
            LiftField? back = typed.TryGetValue(TakeBack, out string? key) ? LiftField.All.FirstOrDefault(f => f.Key == key) : null;
            IReadOnlyList<LiftField> touched = back is not null ? [back] : [.. LiftField.All.Where(f => typed.TryGetValue(f.Key, out string? text) && text != typed.GetValueOrDefault(Read + f.Key))];
            List<string> meanwhile = [.. touched.Where(f => f.Text(now.Lift, units, flight.Debrief.Setup.Clock) != typed.GetValueOrDefault(Read + f.Key)).Select(f => Changed(f, now, typed.GetValueOrDefault(Read + f.Key) ?? "", units, flight.Debrief.Setup.Clock))];
            Dictionary<string, string> mistakes = WhoAndWhy(typed);
            KeptLift asItShouldBe = back is not null ? back.Copy(now.Lift, now.AsKept) : Put(now.Lift, touched, typed, flight.Debrief.Setup.Clock, mistakes, units.Mark);
            if (back is null)
                CheckTimes(flight, asItShouldBe, touched, mistakes);
            CorrectionDraft draft = new(number, typed, mistakes, meanwhile);
            if (!draft.IsRefused && asItShouldBe != now.Lift)
                options.Store.Lifts.Correct(now.Lift, asItShouldBe, typed["who"], options.Clock.GetUtcNow(), typed.GetValueOrDefault("why") is { Length: > 0 } why ? why : null);
            return draft;
        }
    }

    private static KeptLift Put(KeptLift lift, IReadOnlyList<LiftField> touched, IReadOnlyDictionary<string, string> typed, SiteClock clock, Dictionary<string, string> mistakes, DecimalMark mark)
    {
        foreach (LiftField field in touched)
        {
            (lift, string? mistake) = field.Put(lift, field.Key == "weight" ? mark.Read(typed[field.Key]) : typed[field.Key], clock);
            if (mistake is not null)
                mistakes[field.Key] = mistake;
        }
        return lift;
    }

    private static string Changed(LiftField field, CorrectedLift now, string read, DisplayUnits units, SiteClock clock)
    {
        Correction? last = now.Corrections.LastOrDefault(c => LiftField.Of(c) == field);
        string by = last is null ? "It was measured anew" : $"{last.By} changed it at {clock.Clock(last.At.ToUnixTimeMilliseconds() / 1000.0)}";
        return $"{field.Label}: you had read '{read}'. {by}, and now it is '{field.Text(now.Lift, units, clock)}'.";
    }

    private static Dictionary<string, string> WhoAndWhy(IReadOnlyDictionary<string, string> typed)
    {
        Dictionary<string, string> mistakes = [];
        if (typed.GetValueOrDefault("who") is not { Length: > 0 } who)
            mistakes["who"] = "Write who corrects this: a name or initials.";
        else if (who.Length > LongestName)
            mistakes["who"] = "That name is too long; type at most 80 characters.";
        if (typed.GetValueOrDefault("why") is { Length: > LongestReason })
            mistakes["why"] = "That is too long; type at most 200 characters.";
        return mistakes;
    }

    private static void CheckTimes(OpenFlight flight, KeptLift lift, IReadOnlyList<LiftField> touched, Dictionary<string, string> mistakes)
    {
        SiteClock clock = flight.Debrief.Setup.Clock;
        foreach ((string key, double? at) in new[] { ("pickup", lift.PickUpTimeS), ("delivered", lift.DeliveryTimeS) })
            if (touched.Any(f => f.Key == key) && !mistakes.ContainsKey(key) && at is { } t && flight.Debrief.Track is { Count: > 0 } track && (t < track.TimeS[0] - RoomS || t > track.TimeS[^1] + RoomS))
                mistakes[key] = $"{clock.Clock(t)} is more than an hour outside the record ({clock.Clock(track.TimeS[0])} to {clock.Clock(track.TimeS[^1])}). Times here are those of {clock.Zone}.";
        if (lift is { PickUpTimeS: { } from, DeliveryTimeS: { } to } && to <= from && touched.FirstOrDefault(f => f.Key is "pickup" or "delivered") is { } moved && !mistakes.ContainsKey(moved.Key))
            mistakes[moved.Key] = $"Picked up at {clock.Clock(from)} and delivered at {clock.Clock(to)}: type a pick-up before the delivery.";
    }
}
