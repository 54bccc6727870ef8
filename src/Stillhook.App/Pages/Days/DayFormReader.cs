using System.Globalization;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Reporting;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Pages.Days;

/// <summary>Reads the forms of a day: entries to keep, or what is wrong beside each field and what to type instead.</summary>
internal sealed class DayFormReader(DayWork work, string kind, IReadOnlyDictionary<string, string> texts, DecimalMark? mark = null)
{
    private const int LongestText = 500;
    private const double MostKg = 30000;
    private readonly Dictionary<string, string> mistakes = [];

    /// <summary>Who typed it; empty, with a mistake beside the field, when nobody says.</summary>
    public string By => Needed("by", "Write your name: it stands beside the entry.");

    /// <summary>The form with its mistakes.</summary>
    public DayForm Form => new(kind, texts, mistakes);

    /// <summary>What is to be kept; empty when something is wrong, which <see cref="Form"/> then says.</summary>
    public IReadOnlyList<Func<DayStore, WorkDay, string, DateTimeOffset, Guid>> Entries()
    {
        _ = By;
        List<Func<DayStore, WorkDay, string, DateTimeOffset, Guid>> entries = kind switch
        {
            "tally" => [Tally()],
            "time" => [TimeMark()],
            "event" => [Event()],
            "fuel" => [Fuel()],
            "duty" => [Duty()],
            "split" => [.. Split()],
            _ => [],
        };
        return mistakes.Count > 0 ? [] : entries;
    }

    private Func<DayStore, WorkDay, string, DateTimeOffset, Guid> Tally()
    {
        double? at = Text("at").Length > 0 ? Time("at") : null;
        if (Text("at").Length == 0 && Text("load").Length == 0)
            mistakes["at"] = "Write when it was delivered, or the number of the load.";
        double? massKg = Text("mass").Length > 0 ? MassOf("mass") : null;
        // Numbered on from the last line that stands.
        int number = work.Tally.Select(t => t.Number).DefaultIfEmpty(0).Max() + 1;
        TallyEntry entry = new(number, at, Optional("load"), massKg, Optional("note"));
        return (days, day, by, now) => days.Add(day, entry, by, now);
    }

    private Func<DayStore, WorkDay, string, DateTimeOffset, Guid> TimeMark()
    {
        Stretch when = Between();
        (TimeUse use, bool isBreak) = Use("use");
        TimeMark entry = new(when, use, Optional("note"), isBreak);
        return (days, day, by, now) => days.Add(day, entry, by, now);
    }

    private Func<DayStore, WorkDay, string, DateTimeOffset, Guid> Event()
    {
        double at = Time("at");
        if (!Enum.TryParse(Text("kind"), out EventKind what) || !Enum.IsDefined(what))
            mistakes["kind"] = "Choose what happened.";
        EventMark entry = new(at, what, Optional("note"));
        return (days, day, by, now) => days.Add(day, entry, by, now);
    }

    private Func<DayStore, WorkDay, string, DateTimeOffset, Guid> Fuel()
    {
        double at = Time("at");
        double? onBoard = Text("onBoard").Length > 0 ? MassOf("onBoard") : null, takenOn = Text("takenOn").Length > 0 ? MassOf("takenOn") : null;
        if (Text("onBoard").Length == 0 && Text("takenOn").Length == 0)
            mistakes["onBoard"] = "Write what the gauge showed, or what was taken on.";
        FuelEntry entry = new(at, onBoard, takenOn);
        return (days, day, by, now) => days.Add(day, entry, by, now);
    }

    private Func<DayStore, WorkDay, string, DateTimeOffset, Guid> Duty()
    {
        DutySpell entry = new(Needed("person", "Write whose duty it was."), Between(), Optional("note"));
        return (days, day, by, now) => days.Add(day, entry, by, now);
    }

    /// <summary>Every stretch for which something was chosen; a row may stand for several short ones.</summary>
    private IEnumerable<Func<DayStore, WorkDay, string, DateTimeOffset, Guid>> Split()
    {
        List<Func<DayStore, WorkDay, string, DateTimeOffset, Guid>> marks = [];
        foreach (string row in texts.Keys.Where(k => k.StartsWith("use-", StringComparison.Ordinal) && Text(k).Length > 0).Select(k => k[4..]))
        {
            (TimeUse use, bool isBreak) = Use("use-" + row);
            foreach (Stretch when in StretchesOf(Text("stretch-" + row)))
            {
                TimeMark mark = new(when, use, Optional("note-" + row), isBreak);
                marks.Add((days, day, by, now) => days.Add(day, mark, by, now));
            }
        }
        if (marks.Count == 0 && mistakes.Count == 0)
            mistakes["split"] = "Choose for at least one stretch what it was for.";
        return marks;
    }

    /// <summary>Stretches as a hidden field carries them: from-to in s since 1970, one after the other.</summary>
    private IEnumerable<Stretch> StretchesOf(string text)
    {
        foreach (string part in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            if (part.Split('~') is [var from, var to] && Number(from) is { } a && Number(to) is { } b && b > a && b - a <= 86400 && Math.Abs((work.Clock(a).Date - work.Day.ToDateTime(TimeOnly.MinValue)).TotalDays) <= 1)
                yield return new(a, b);
            else
                mistakes["split"] = "This page is from before. Reload it and choose again.";
    }

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) && double.IsFinite(v) ? v : null;

    private (TimeUse Use, bool IsBreak) Use(string field)
    {
        if (Text(field) == "Break")
            return (TimeUse.Other, true);
        if (Enum.TryParse(Text(field), out TimeUse use) && Enum.IsDefined(use) && use != TimeUse.Flown)
            return (use, false);
        mistakes[field] = "Choose what it was for.";
        return default;
    }

    private Stretch Between()
    {
        double from = Time("from"), to = Time("to");
        if (to <= from)
            mistakes["to"] = "This is not later than when it began. Write what goes on over midnight on both days, up to 23:59:59 and from 00:00.";
        return new(from, to);
    }

    private double Time(string field)
    {
        if (!DayClock.TryRead(work, Text(field), out double timeS))
            mistakes[field] = Text(field).Length == 0 ? $"Write {DayClock.Expected}." : $"'{Text(field)}' was not understood; type {DayClock.Expected}.";
        return timeS;
    }

    private double MassOf(string field)
    {
        if (!QuantityText.TryMass((mark ?? DecimalMark.Point).Read(Text(field)), out Mass mass, out string expected))
            mistakes[field] = $"'{Text(field)}' was not understood; type {expected}.";
        else if (mass.Kilograms > MostKg)
            mistakes[field] = $"'{Text(field)}' is over {MostKg.ToString("0", CultureInfo.InvariantCulture)} kg.";
        return mass.Kilograms;
    }

    private string Needed(string field, string mistake)
    {
        if (Text(field).Length == 0)
            mistakes[field] = mistake;
        return Text(field);
    }

    private string? Optional(string field) => Text(field) is { Length: > 0 } text ? text : null;

    private string Text(string field)
    {
        string text = texts.GetValueOrDefault(field, "");
        if (text.Length > LongestText && !field.StartsWith("stretch-", StringComparison.Ordinal))
            mistakes[field] = FormattableString.Invariant($"This has {text.Length} characters; write at most {LongestText}.");
        return text;
    }
}
