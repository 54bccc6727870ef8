using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;

namespace Stillhook.Files.Cards;

/// <summary>The cockpit card: what is read in flight in 14 points and more, what it rests on in small type.</summary>
internal static class CockpitPrint
{
    private const int MostToLookAt = 8;

    public static PrintedCard Of(Brief brief, CockpitCard card, CardUnits u)
    {
        string wind = card.Reason == ApproachReason.AskedFor && card.Wind is { } w ? CardUnits.Text($" wind {w.FromDeg:000}") : "";
        string clock = card.Minute is { } minute ? ", planned for " + ClockText.Of(minute) : "";
        return CardPrints.Card(brief, $"cockpit {card.Site}{wind}", $"Cockpit card: {card.Site}{(wind.Length > 0 ? ", wind " + u.Wind(card.Wind) : "")}", $"{Capital(card.Load)}; wind {u.Wind(card.Wind)}{clock}", card.Blocked is null ? Flown(card, u) : Refused(card, u));
    }

    private static IEnumerable<CardPart> Refused(CockpitCard card, CardUnits u)
    {
        yield return new CardText("NO APPROACH", CardSize.Large, Strong: true);
        yield return new CardText(u.Sentence(card.Blocked!), CardSize.Large, Boxed: true);
        yield return new CardText("No marks are given, because none that breaks nothing was found. This card is no leave to fly.", Strong: true);
        if (card.Remedies.Count > 0)
        {
            yield return new CardHeading("Would work, within all limits");
            yield return new CardList([.. card.Remedies.Select(u.Sentence)]);
        }
        yield return new CardText(Conditions(card, u), CardSize.Small);
    }

    private static IEnumerable<CardPart> Flown(CockpitCard card, CardUnits u)
    {
        yield return new CardFigures([Setting(card, u), Course(card, u), OverTheSpot(card)]);
        yield return Marks(card, u);
        if (card.PowerIn is not null || card.Reject is not null)
            yield return new CardFigures([PowerIn(card, u), Reject(card)]);
        foreach (CheckItem item in card.ToLookAt.Where(i => i.Verdict == CheckVerdict.Fails))
            yield return new CardText("FAILS: " + u.Sentence(item.Text), Strong: true, Boxed: true);
        yield return new CardText(CardCautions.EyesOutside, Strong: true);
        yield return new CardFigures([Swing(card), PowerLeft(card), WindLimit(card, u)]);
        yield return new CardText(CardCautions.Gates, Strong: true, Boxed: true);
        yield return new CardHeading("Land and re-brief when");
        yield return new CardList([.. Triggers(card, u)]);
        if (card.Sketch is { } sketch)
            yield return new CardPicture(sketch);
        foreach (CardPart part in Order(card))
            yield return part;
        foreach (CardPart part in ToLookAt(card, u))
            yield return part;
        yield return new CardText(RestsOn(card, u), CardSize.Small);
    }

    private static CardFigure Setting(CockpitCard card, CardUnits u) => card.QnhPa is { } qnh
        ? new("Set QNH", u.Pressure(qnh), card.QnhAt is { } at ? "read " + Clock(at) : "not observed here: forecast, typed, or time not told")
        : new("Set QNH", "not given", "no reading holds until one is set and checked over the spot");

    private static CardFigure Course(CockpitCard card, CardUnits u) => new("Course, true", CardUnits.Text($"{card.CourseDeg:000}°"), Winds(card, u));

    private static string Winds(CockpitCard card, CardUnits u)
    {
        if (card.Wind is null)
            return "wind not given";
        string along = Math.Abs(card.HeadwindMs) < 0.25 ? "" : $"{u.Speed(Math.Abs(card.HeadwindMs))} {(card.HeadwindMs > 0 ? "ahead" : "behind")}";
        string side = Math.Abs(card.CrosswindMs) < 0.25 ? "" : $"{u.Speed(Math.Abs(card.CrosswindMs))} from {(card.CrosswindMs > 0 ? "left" : "right")}";
        return string.Join(", ", new[] { along, side }.Where(t => t.Length > 0).DefaultIfEmpty("no wind"));
    }

    private static CardFigure OverTheSpot(CockpitCard card) => new("Over the spot, load touching", Feet(card.OverTheSpotFt ?? double.NaN), "altimeter check, before");

    private static CardTable Marks(CockpitCard card, CardUnits u) => new("Marks", [new("Mark", 40), new("Altimeter, ft", 19, ToTheRight: true, Strong: true), new("To go, m", 13, ToTheRight: true), new("Speed, " + u.SpeedUnit, 16, ToTheRight: true), new("Sink, " + u.SinkUnit, 16, ToTheRight: true)],
        [.. card.Marks.Select((m, i) => new CardRow($"{m.Label} {MarkName(m)}{Beside(i == 0 ? null : card.Marks[i - 1], m)}".TrimEnd(), CardUnits.Text($"{m.AltimeterFt:0}"), CardUnits.Text($"{m.DistanceM:0}"), MarkSpeed(m, u), u.SinkDown(m.SinkMs)))], CardSize.Large);

    private static string Beside(CockpitMark? before, CockpitMark m) => before is { } b && ApproachPlan.SameReading(b.AltimeterFt, b.DistanceM, m.AltimeterFt, m.DistanceM) is { Length: > 0 } same ? ", " + same : "";

    private static string MarkName(CockpitMark m) => string.Join(": ", new[] { m.Name switch { "start mark, slow down" => "start, slow down", "start mark" => "start", _ => m.Name }, m.Landmark ?? "" }.Where(t => t.Length > 0));

    private static string Place(CockpitMark m) => CardUnits.Text($"{m.DistanceM:0} m{(m.Landmark is { } seen ? ", " + seen : "")}");

    private static string MarkSpeed(CockpitMark m, CardUnits u) => m.AirMs is { } air ? u.MarkSpeed(air) + " air" : m.GroundMs < 2.5 ? "walk" : u.MarkSpeed(m.GroundMs) + " gnd";

    private static CardFigure PowerIn(CockpitCard card, CardUnits u)
    {
        if (card.PowerIn is not { } p)
            return new("P  Power in", "not judged", "no power-in gate");
        string torque = p.TorquePercent is { } there && p.TorqueOverSpotPercent is { } over ? CardUnits.Text($"torque {there:0} % there, {over:0} % over the spot") : "";
        string sink = p.LargestSinkMs is { } most ? $"sinking over {u.SinkDown(Math.Max(0, most))} {u.SinkUnit} here: reject" : "";
        return new("P  Power coming in, at the latest", Feet(p.Mark.AltimeterFt), Place(p.Mark) + Before(card, p.Mark), string.Join("; ", new[] { torque, sink }.Where(t => t.Length > 0)));
    }

    private static CardFigure Reject(CockpitCard card) => card.Reject is { } r
        ? new("R  Reject, decide by", Feet(r.Mark.AltimeterFt), Place(r.Mark) + Before(card, r.Mark), "way out " + WayOut(r.TurnDeg) + ", climbing")
        : new("R  Reject", "not judged", "no way out was found or power is not known");

    /// <summary>Where power-in or reject reads as the mark flown before it.</summary>
    private static string Before(CockpitCard card, CockpitMark gate)
    {
        CockpitMark? before = card.Marks.Concat(new[] { card.PowerIn?.Mark, card.Reject?.Mark }.OfType<CockpitMark>())
            .Where(m => m.Label != gate.Label && (m.DistanceM > gate.DistanceM || (m.DistanceM == gate.DistanceM && m.Label == "P"))).MinBy(m => m.DistanceM);
        return before is { } b && ApproachPlan.SameReading(b.AltimeterFt, b.DistanceM, gate.AltimeterFt, gate.DistanceM) is { Length: > 0 } same ? $" ({same}{(same == "same place" ? " as " + b.Label : " than " + b.Label)})" : "";
    }

    private static string WayOut(double turnDeg) => turnDeg == 0 ? "straight on" : CardUnits.Text($"{Math.Abs(turnDeg):0}° to the {(turnDeg > 0 ? "right" : "left")}");

    private static CardFigure Swing(CockpitCard card) => card.Period is { } p
        ? new("One swing, there and back", ApproachSituation.SwingText(p.FreeS, p.HeldS), "free aircraft to hook held still") : new("One swing", "not known");

    private static CardFigure PowerLeft(CockpitCard card) => card.PowerLeftPercent is { } left
        ? new("Power left over the spot", CardUnits.Text($"{HoverRatio.Shown(left):0} %"), left < card.PlanRejectUnderPercent ? CardUnits.Text($"under {card.PlanRejectUnderPercent:0} %: plan a reject") : CardUnits.Text($"reject is planned under {card.PlanRejectUnderPercent:0} %"))
        : new("Power left over the spot", "not judged");

    private static CardFigure WindLimit(CockpitCard card, CardUnits u) => new("Wind limits", u.SpeedDown(card.Triggers!.CrosswindMs), "from the side");

    private static IEnumerable<string> Triggers(CockpitCard card, CardUnits u)
    {
        RebriefTriggers t = card.Triggers!;
        yield return t.FtPerHPa is { } ft ? $"QNH moves: {u.SettingStep(ft)}. Reset and reprint." : "A QNH is given: none was known for these marks.";
        string sector = CardUnits.Text($"from between {(card.CourseDeg + 90) % 360:000}° and {(card.CourseDeg + 270) % 360:000}° (behind)");
        yield return t.GustMs is { } gust ? $"Wind past {u.SpeedDown(gust)} with gusts, past {u.SpeedDown(t.CrosswindMs)} from the side, or {sector}." : $"Any wind is met {sector}, or past {u.SpeedDown(t.CrosswindMs)} from the side: none was given.";
        foreach (string heat in t.Heat.Select(Heat))
            yield return heat;
        yield return "Line, rigging, kind of load or direction changes.";
    }

    private static string Heat(HeatStop h) => CardUnits.Text($"Warmer than {Math.Floor(h.TemperatureC * 10 + 1e-6) / 10:0.0} °C at {h.Site} for load {h.LoadNumber} ({(h.LiftMinute is { } m ? $"{ClockText.Of(m)}, " : "")}planned {h.PlannedC:0.0} °C): {(h.ToEndOfChart ? "the chart's page ends" : "it no longer lifts")}.");

    private static IEnumerable<CardPart> Order(CockpitCard card)
    {
        if (card.Order.Count == 0)
            yield break;
        yield return new CardHeading("Order and fuel stops");
        yield return new CardText(OrderLine(card.Order));
    }

    /// <summary>Loads in order with the stops between them.</summary>
    internal static string OrderLine(IReadOnlyList<TankRun> runs) => string.Join("; ", runs.Select(r =>
        string.Join(", ", Runs(r.Lifts)) + (r.Stop is { } stop ? (r.Lifts.Count > 0 ? "; " : "") + StopWords(stop) : ""))) + ".";

    /// <summary>First lifts of a kind stand apart from the rest, so that nobody overlooks them.</summary>
    private static IEnumerable<string> Runs(IReadOnlyList<LiftStep> lifts)
    {
        for (int i = 0; i < lifts.Count;)
        {
            bool first = lifts[i].ProvingLift;
            string[] run = [.. lifts.Skip(i).TakeWhile(l => l.ProvingLift == first).Select(l => l.Number)];
            yield return NumberRuns.Of(run) + (!first ? "" : run.Length == 1 ? " (first of its kind)" : " (each the first of its kind)");
            i += run.Length;
        }
    }

    internal static string StopWords(FuelStop stop) => $"{(stop.Refuel ? stop.Break ? "FUEL AND BREAK" : "FUEL" : "BREAK")} {ClockText.Of(stop.FromMinute)}";

    private static IEnumerable<CardPart> ToLookAt(CockpitCard card, CardUnits u)
    {
        List<CheckItem> items = [.. card.ToLookAt.Where(i => i.Verdict != CheckVerdict.Fails)];
        List<string> lines = [.. items.Take(MostToLookAt).Select(i => (i.Red ? "LOOK AT: " : "") + u.Sentence(i.Text))];
        if (items.Count > MostToLookAt)
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"{items.Count - MostToLookAt} more in the crew's brief."));
        if (card.BareLine)
            lines.Add(CardCautions.EmptyLine);
        if (lines.Count == 0)
            yield break;
        yield return new CardHeading("Look at before take-off");
        yield return new CardList(lines);
    }

    private static string Conditions(CockpitCard card, CardUnits u)
    {
        string qnh = card.QnhPa is { } pa ? $"QNH {u.Pressure(pa)}" : "QNH not given";
        string temperature = card.TemperatureC is { } t ? CardUnits.Text($"{t:0.0} °C") : "temperature not given";
        string recon = card.Recon is { } r ? CardUnits.Text($"altimeter over the spot {r.AltimeterFt:0} ft at {u.Pressure(r.QnhPa)}, {Clock(r.At)}") : "no altimeter reading over the spot: the entered elevation stands";
        return $"Worked for: {qnh}, {temperature}, wind {u.Wind(card.Wind)}; {recon}.";
    }

    private static string RestsOn(CockpitCard card, CardUnits u)
    {
        string inputs = string.Join("; ", card.Inputs.Select(i => $"{i.Name} {u.Amount(i.Value)}{(i.From == InputFrom.Default ? "*" : "")}"));
        return $"{Conditions(card, u)} Altimeter rounded up to 20 ft, temperature correction in it; sink rounded down; distances rounded away from the spot. Rests on: {inputs}.{(card.Inputs.Any(i => i.From == InputFrom.Default) ? " * nobody set it: a default, set yours." : "")} {CardCautions.Charts} air: air speed; gnd: ground speed.";
    }

    private static string Clock(TimeOnly at) => at.ToString("HH:mm", CultureInfo.InvariantCulture);

    private static string Feet(double ft) => CardUnits.Text($"{ft:0} ft");

    private static string Capital(string text) => text.Length > 0 ? char.ToUpperInvariant(text[0]) + text[1..] : text;
}
