using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>A store filled at random: awkward texts, numbers over many magnitudes, whatever may be missing missing now and then.</summary>
internal static class RandomWork
{
    private static readonly string[] Texts = ["", " ", "Hütte", "日本語", "a\"b\\c", "line\r\nbreak\ttab", "😀", "'; DROP TABLE flight; --", "\u2028", "{}"];
    private static readonly DateTimeOffset Start = new(2026, 6, 1, 4, 0, 0, TimeSpan.Zero);

    /// <summary>Two jobs with all that may belong to them.</summary>
    public static (Guid First, Guid Second) Fill(WorkStore store, Random r)
    {
        KeptSite[] sites = [.. Enumerable.Range(0, 3).Select(i => store.Sites.Save($"site {i}", r.NextDouble() * 180 - 90, r.NextDouble() * 360 - 180, Text(r), "Anna", Moment(r)))];
        store.Aircraft.Save("HB-XYZ", Text(r), "Anna", Moment(r));
        Guid[] jobs = [.. Enumerable.Range(0, 2).Select(_ => Job(store, r, sites))];
        store.Parts.TakeIntoUse("L-30", PartKind.Line, "Anna", Moment(r), r.Next(5000), r.NextDouble() * 300);
        store.Parts.Add("L-30", new(PartEntryKind.Inspection, Moment(r), "Shop", NextDue: new(2027, 1, 1), Note: Text(r)));
        for (int i = 0; i < r.Next(1, 4); i++)
            Flight(store, r, jobs[r.Next(2)]);
        DateOnly day = new(2026, 6, 1);
        for (int i = 0; i < r.Next(6); i++)
        {
            WorkDay of = new(day, r.Next(2) == 0 ? null : "HB-XYZ");
            Guid key = r.Next(5) switch
            {
                0 => store.Days.Add(of, new TallyEntry(i, Number(r), Maybe(r), Number(r), Maybe(r)), "Anna", Moment(r)),
                1 => store.Days.Add(of, new TimeMark(new(r.NextDouble(), r.NextDouble() * 1e9), TimeUse.Weather, Maybe(r), true), "Anna", Moment(r)),
                2 => store.Days.Add(of, new EventMark(r.NextDouble(), EventKind.Damage, Maybe(r)), "Anna", Moment(r)),
                3 => store.Days.Add(of, new FuelEntry(r.NextDouble(), Number(r), Number(r)), "Anna", Moment(r)),
                _ => store.Days.Add(of, new DutySpell("Anna", new(1, 2), Maybe(r)), "Anna", Moment(r)),
            };
            if (r.Next(3) == 0)
                store.Days.Withdraw(key, "Beat", Moment(r), Maybe(r));
        }
        return (jobs[0], jobs[1]);
    }

    private static Guid Job(WorkStore store, Random r, KeptSite[] sites)
    {
        JobEntry entry = new($"job {Text(r)}", Text(r), r.Next(4) == 0 ? null : new(2026, 6, 1), r.Next(2) == 0 ? null : "Europe/Zurich", r.Next(2) == 0 ? null : "HB-XYZ") { Sites = [.. sites.Where(_ => r.Next(2) == 0).Select(s => s.Key)] };
        Guid key = store.Jobs.Save(entry, "Anna", Start).Key;
        if (r.Next(2) == 0)
            store.Jobs.Save(entry with { Text = Text(r) + "again" }, "Beat", Start.AddHours(1), key);
        if (r.Next(2) == 0)
            store.Jobs.IssueCard(key, "pilot.pdf", "application/pdf", Bytes(r), Moment(r));
        return key;
    }

    private static void Flight(WorkStore store, Random r, Guid job)
    {
        double fromS = (Start - DateTimeOffset.UnixEpoch).TotalSeconds + r.Next(40_000);
        FlightWork work = SampleWork.Flight(fromS, 0, r.Next(2) == 0 ? null : "Anna", "HB-XYZ", job) with
        {
            Lifts = [.. Enumerable.Range(1, r.Next(5)).Select(n => Lift(r, n, fromS + 300 * n))],
            Hovers = [.. Enumerable.Range(0, r.Next(3)).Select(n => new HoverPoint(fromS + 300 * n, Text(r) + "x", Maybe(r), r.NextDouble() * 2000, 2000, Number(r), Number(r), Number(r), Number(r), r.Next(4) is var from && from == 3 ? null : (FuelFrom)from))],
            Track = r.Next(2) == 0 ? null : SampleWork.Track(fromS),
        };
        long id = store.Flights.Add(Text(r) + "x", new MemoryStream(Bytes(r)), Moment(r), Maybe(r), r.Next(6) == 0 ? work with { Lifts = [], Hovers = [] } : work).Flight.Id;
        foreach (CorrectedLift lift in store.Lifts.OfFlight(id).Where(_ => r.Next(2) == 0))
            store.Lifts.Correct(lift.Lift, lift.Lift with { LoadKg = Number(r), Family = Maybe(r), StruckOut = r.Next(2) == 0 }, "Beat", Moment(r), Maybe(r));
        if (r.Next(2) == 0)
            store.Lifts.AddByHand(new() { Number = 1, FlightId = r.Next(2) == 0 ? id : 0, LoadKg = Number(r), DeliveryTimeS = fromS }, new(2026, 6, 1), null, "Beat", Moment(r));
        store.Parts.CountUse("L-30", id, r.Next(30), r.NextDouble(), "Anna", Moment(r));
    }

    private static KeptLift Lift(Random r, int number, double atS) => SampleWork.Lift(number, atS) with
    {
        LoadNumber = Maybe(r), Family = Maybe(r), LoadKg = Number(r), LineM = Number(r), PickUp = r.Next(2) == 0 ? null : new(r.NextDouble(), -r.NextDouble()), DeliverySite = Maybe(r), ReleaseTimeS = Number(r),
        Confidence = (Confidence)r.Next(3), Measures = r.Next(3) == 0 ? null : SampleWork.Lift(number, atS).Measures! with { HoverTimeS = Number(r), SwingShownM = new(r.NextDouble(), 0, 1e-300), Tries = r.Next(3) },
    };

    private static string Text(Random r) => Texts[r.Next(Texts.Length)];

    private static string? Maybe(Random r) => r.Next(3) == 0 ? null : Text(r);

    private static double? Number(Random r) => r.Next(4) == 0 ? null : (r.NextDouble() - 0.5) * Math.Pow(10, r.Next(-8, 12));

    private static DateTimeOffset Moment(Random r) => Start.AddTicks(r.NextInt64(864_000_000_000));

    private static byte[] Bytes(Random r)
    {
        byte[] bytes = new byte[r.Next(1, 40_000)];
        r.NextBytes(bytes);
        return bytes;
    }
}
