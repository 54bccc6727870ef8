using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Planning;

namespace Stillhook.Files.Cards;

/// <summary>The receiver's sheet: where to stand, where to go, what comes, what is called and shown by hand.</summary>
internal static class ReceiverPrint
{
    private const int LeastRun = 3;

    public static PrintedCard Of(Brief brief, ReceiverSheet sheet, CardUnits u) =>
        CardPrints.Card(brief, $"receiver {sheet.Site}", "Receiver: " + sheet.Site, "One person signals, plainly to be seen. Everybody else stands clear.", Parts(sheet, u));

    private static IEnumerable<CardPart> Parts(ReceiverSheet sheet, CardUnits u)
    {
        yield return new CardText($"Stay out from under: a load let go at {Hundred(u)} is down in about 2.5 s. {CardCautions.Receiver}", Strong: true, Boxed: true);
        yield return new CardFigures([Stand(sheet), Escape(sheet)]);
        yield return new CardPicture(sheet.Sketch);
        yield return new CardList([.. Where(sheet)]);
        if (sheet.UnderAWay.Count > 0)
            yield return new CardText(string.Join(" ", Under(sheet)) + " Agree another place or way in before the first load.", Strong: true, Boxed: true);
        yield return new CardHeading("Stop words");
        yield return new CardFacts(CrewWords.Stop, StrongNames: true);
        yield return new CardText(CardCautions.LostRadio, Strong: true, Boxed: true);
        yield return new CardHeading("Hand signals, facing the aircraft");
        yield return new CardFacts(CrewWords.Signals, StrongNames: true);
        yield return new CardText(CrewWords.SignalsGap);
        yield return new CardText("Hook: discharge first (wand or rated gloves). Touch nothing that swings. Hook off, step back on the escape side, thumb up.");
        yield return new CardHeading("What comes, in this order");
        if (sheet.Loads.Count > 0)
            yield return Loads(sheet, u);
        else
            yield return new CardText("No load for this site has a place in the order.", Strong: true);
        if (sheet.Loads.Any(l => l.HowKnown != MassKnownBy.Weighed))
            yield return new CardText("? not weighed.");
        if (sheet.Loads.Count > 0 && sheet.Loads.All(l => l.Note is null))
            yield return new CardText("Which way round the loads are set down is not entered: ask before the first one.", Strong: true);
    }

    private static string Hundred(CardUnits u) => u.Height(30.48);

    private static CardFigure Stand(ReceiverSheet sheet) => sheet.StandOffM is { } m
        ? new("Stand at least", CardUnits.Text($"{m:0} m"), "from the spot, until the load has touched", sheet.StandOffIsDefault ? "A DEFAULT, not set by the operator: agree it" : "")
        : new("Stand well clear", "agree it", More: "distance not worked out");

    private static CardFigure Escape(ReceiverSheet sheet) => sheet.EscapeSideDeg is { } deg
        ? new("Escape side", Compass.Word(deg), "leave that way", "never under the load")
        : new("Escape side", "not entered", More: "agree it and mark it before the first lift");

    private static IEnumerable<string> Where(ReceiverSheet sheet)
    {
        foreach (StandingSpot p in sheet.People)
            yield return CardUnits.Text($"{p.Label} {p.Name}: {p.DistanceM:0} m to the {Compass.Word(p.BearingDeg)} of the spot.{(p.TooNear ? " TOO NEAR: go farther off until the load has touched." : "")}");
        if (sheet.People.Count == 0)
            yield return "Nobody's place is entered: agree who stands where, in sight of the pilot.";
        foreach (ReceiverWay w in sheet.Ways)
            yield return $"{(w.Reason == ApproachReason.Planned ? "The aircraft comes" : $"With wind from the {(w.WindFromDeg is { } from ? Compass.Word(from) : "other side")} it comes")} from the {Compass.Word(w.FromDeg)}{(w.OutDeg is { } goes ? $"; if it rejects, it leaves to the {Compass.Word(goes)}" : "")}. Nobody under that way.";
        if (sheet.Ways.Count == 0)
            yield return "No way in is planned: no load comes before one is briefed.";
    }

    /// <summary>Those that lie under the same ways in one sentence.</summary>
    private static IEnumerable<string> Under(ReceiverSheet sheet)
    {
        foreach (var same in sheet.UnderAWay.GroupBy(u => u.Person, (who, over) => (Who: who is { } p ? $"{p.Label} {p.Name}" : "escape side", Ways: string.Join("; ", over.GroupBy(o => o.WhenItRejects, Ways)))).GroupBy(u => u.Ways, u => u.Who))
            yield return $"{char.ToUpperInvariant(same.First()[0])}{string.Join(" and ", same)[1..]}: {same.Key}.";
    }

    private static string Ways(bool whenItRejects, IEnumerable<UnderAWay> over) => whenItRejects
        ? "under the way out to the " + string.Join(" and ", over.Select(o => Compass.Word(o.Way.OutDeg!.Value)).Distinct())
        : "where a load from the " + string.Join(" and ", over.Select(o => Compass.Word(o.Way.FromDeg)).Distinct()) + " goes that comes too far";

    private static CardTable Loads(ReceiverSheet sheet, CardUnits u)
    {
        bool people = sheet.Loads.Any(l => l.CrewNeeded is not null);
        return new("What comes, in this order", [new("Turn", 14, ToTheRight: true), new("Load", 24, Strong: true), new("What, and which way round", 32), new(u.MassUnit, 18, ToTheRight: true), .. people ? new CardColumn[] { new("People", 11, ToTheRight: true) } : []],
            [.. Runs(sheet.Loads).Select(run => run.Count < LeastRun ? Row(run[0], people, u) : Row(run, people, u))]);
    }

    private static CardRow Row(ReceiverRow l, bool people, CardUnits u)
    {
        string[] cells = [CardUnits.Text($"{l.Turn}"), l.Number, What(l), u.MassNumber(l.MassKg) + (l.HowKnown == MassKnownBy.Weighed ? "" : "\u00a0?")];
        return new([.. cells, .. people ? [l.CrewNeeded is { } n ? CardUnits.Text($"{n}") : "-"] : Array.Empty<string>()]);
    }

    /// <summary>Loads that follow each other and are alike to the receiver stand in one line, their numbers in order; fewer than three, a note and a first of its kind stand apart.</summary>
    private static IEnumerable<IReadOnlyList<ReceiverRow>> Runs(IReadOnlyList<ReceiverRow> loads)
    {
        for (int i = 0; i < loads.Count;)
        {
            ReceiverRow first = loads[i];
            ReceiverRow[] run = first is { Note: null, Proving: false } ? [.. loads.Skip(i).TakeWhile(l => l is { Note: null, Proving: false } && l.Name == first.Name && l.CrewNeeded == first.CrewNeeded)] : [first];
            if (run.Length < LeastRun)
                run = [first];
            yield return run;
            i += run.Length;
        }
    }

    private static CardRow Row(IReadOnlyList<ReceiverRow> run, bool people, CardUnits u)
    {
        string[] cells =
        [
            CardUnits.Text($"{run[0].Turn} to {run[^1].Turn}"), string.Join(", ", run.Select(l => l.Number)), run[0].Name ?? "",
            $"{u.MassNumber(run.Min(l => l.MassKg))} to {u.MassNumber(run.Max(l => l.MassKg))}" + (run.All(l => l.HowKnown == MassKnownBy.Weighed) ? "" : "\u00a0?"),
        ];
        return new([.. cells, .. people ? [run[0].CrewNeeded is { } n ? CardUnits.Text($"{n}") : "-"] : Array.Empty<string>()]);
    }

    private static string What(ReceiverRow l) => string.Join(". ", new[] { l.Name ?? "", l.Note ?? "", l.Proving ? "First of its kind: stand farther off" : "" }.Where(t => t.Length > 0));
}
