using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;
using StoreOptions = Stillhook.Store.StoreOptions;

namespace Stillhook.Tests.Store;

/// <summary>What the store keeps; run on each database.</summary>
public abstract class StoreTests
{
    private static readonly DateTimeOffset Now = SampleWork.Now;
    private static readonly DateOnly FirstOfJune = new(2026, 6, 1);

    /// <summary>The test's own store, opened once more at each call.</summary>
    internal abstract WorkStore Open(StoreOptions? options = null);

    [Fact]
    public void Add_Record_ComesBackByteForByteAfterReopening()
    {
        byte[] bytes = RandomNumberGenerator.GetBytes(300_000);
        long id = Open().Flights.Add("day.gpx", new MemoryStream(bytes), Now, "{}").Flight.Id;

        FlightStore again = Open().Flights;
        using MemoryStream back = new();
        using (Stream record = again.OpenRecord(id)!)
        {
            record.Position = 100;
            Assert.Equal(bytes[100], record.ReadByte());
            record.Position = 0;
            record.CopyTo(back);
        }
        Assert.Equal(bytes, back.ToArray());
        Flight flight = Assert.Single(again.List());
        Assert.Equal(("day.gpx", 300_000L, "{}", Now), (flight.Name, flight.Bytes, flight.JobText, flight.ImportedAt));
        Assert.Equal(TimeSpan.Zero, flight.ImportedAt.Offset);
    }

    [Fact]
    public void Add_SameBytesUnderAnotherName_AreKeptOnce()
    {
        FlightStore store = Open().Flights;
        AddedFlight first = store.Add("a.gpx", Content("abc"), Now), second = store.Add("b.gpx", Content("abc"), Now);
        Assert.False(first.AlreadyThere);
        Assert.True(second.AlreadyThere);
        Assert.Equal(first.Flight.Id, second.Flight.Id);
        Assert.Single(store.List());
        // Published: SHA-256 of 'abc', FIPS 180-4 example.
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", first.Flight.Digest);
        Assert.Equal(first.Flight.Id, store.FindByDigest(first.Flight.Digest)!.Id);
    }

    [Fact]
    public async Task Accounts_AreKeptWithTheirClaims()
    {
        Assert.False(Open().HasAccounts());
        ServiceCollection services = new();
        services.AddLogging().AddAccounts(Open()).AddIdentityCore<Account>(o => o.User.AllowedUserNameCharacters = "");
        await using ServiceProvider provider = services.BuildServiceProvider();
        using (IServiceScope scope = provider.CreateScope())
        {
            UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            Account made = new() { UserName = "Jörg" };
            Assert.True((await accounts.CreateAsync(made, "Grey-gravel-0ver")).Succeeded);
            await accounts.AddClaimsAsync(made, [new("role", "pilot"), new("role", "planner")]);
            await accounts.SetLockoutEndDateAsync(made, Now);
        }
        Assert.True(Open().HasAccounts());
        using (IServiceScope scope = provider.CreateScope())
        {
            UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            Account kept = (await accounts.FindByNameAsync("JÖRG"))!;
            Assert.True(await accounts.CheckPasswordAsync(kept, "Grey-gravel-0ver"));
            Assert.Equal(new[] { "pilot", "planner" }, (await accounts.GetClaimsAsync(kept)).Select(c => c.Value).Order(StringComparer.Ordinal));
            Assert.Equal(Now, kept.LockoutEnd);
            Assert.True((await accounts.DeleteAsync(kept)).Succeeded);
        }
        Assert.False(Open().HasAccounts());
    }

    [Fact]
    public void Owners_AreWhoTookInAndWhoFlew()
    {
        FlightStore store = Open().Flights;
        long own = store.Add("a.gpx", Content("a"), Now, work: SampleWork.Flight(), takenInBy: "key").Flight.Id, nobodys = store.Add("b.gpx", Content("b"), Now).Flight.Id;
        Assert.Equal(new("key", "Anna"), store.Owner(own));
        Assert.Equal(new(null, null), store.Owner(nobodys));
        Assert.Null(store.Owner(4242));
        Assert.Equal(2, store.Owners().Count);
        Assert.Equal("key", store.Find(own)!.TakenInBy);
    }

    [Fact]
    public void Save_TypedAndSummary_ComeBack()
    {
        FlightStore store = Open().Flights;
        long id = store.Add("a.gpx", Content("abc"), Now).Flight.Id;
        store.SaveTyped(id, new Dictionary<string, string> { ["line"] = "100 ft" });
        FlightSummary summary = new("0.1.0", 1.5e9, 23, "Same again.");
        store.SaveSummary(id, summary);
        Flight flight = store.Find(id)!;
        Assert.Equal("100 ft", flight.Typed["line"]);
        Assert.Equal(summary, flight.Summary);
    }

    [Fact]
    public void Remove_TakesTheRecordAndItsLiftsToo()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("a.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        Assert.True(store.Flights.Remove(id));
        Assert.False(store.Flights.Remove(id));
        Assert.Null(store.Flights.Find(id));
        Assert.Null(store.Flights.OpenRecord(id));
        Assert.Null(store.Flights.Track(id));
        Assert.Empty(store.Lifts.OfFlight(id));
        Assert.Empty(store.Flights.Hovers("HB-XYZ"));
    }

    // Closed form: as many flights as were added.
    [Fact]
    public void Add_FromManyThreads_KeepsAll()
    {
        FlightStore store = Open().Flights;
        Parallel.For(0, 6, new() { MaxDegreeOfParallelism = 4 }, i => store.Add($"{i}.gpx", Content($"record {i}"), Now));
        Assert.Equal(6, store.List().Count);
    }

    [Fact]
    public void Add_WithWork_DayComesBackWhole()
    {
        FlightWork work = SampleWork.Flight();
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, work).Flight.Id;

        DayWork day = Open().Days.Read(new(FirstOfJune));
        KeptFlight flight = Assert.Single(day.Flights);
        Assert.Equal((id, "day.gpx", work.Recorded, "Anna", "HB-XYZ"), (flight.Id, flight.Name, flight.Recorded, flight.Pilot, flight.Aircraft));
        Assert.Equal(work.Airborne, flight.Airborne);
        Assert.Equal(work.Exceedances, flight.Exceedances);
        Assert.Equal(work.Lifts.Select(l => SampleWork.Whole(l with { FlightId = id })), day.Lifts.Select(SampleWork.Whole));
        Assert.Equal(work.Hovers, store.Flights.HoversOf(id));
        Assert.Equal(work.Hovers.Select(ForBaseline), store.Flights.Hovers("HB-XYZ"));
        Assert.Equal(work.Summary, store.Flights.Find(id)!.Summary);
        Assert.Empty(Open().Days.Read(new(FirstOfJune.AddDays(1))).Lifts);
    }

    [Fact]
    public void Track_ComesBackToTheBit()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        Track kept = store.Flights.Track(id)!, made = SampleWork.Track(SampleWork.MorningS); // the sample's values are 32-bit ones
        Assert.Equal(made.TimeS, kept.TimeS);
        Assert.Equal((made.East, made.AccelerationUp), (kept.East, kept.AccelerationUp), ComparePair);
        Assert.Equal(made.VerticalAccelerationErrorMs2, kept.VerticalAccelerationErrorMs2);
        Assert.Equal(made.StretchStarts, kept.StretchStarts);
        Assert.Equal((46.1, 8.2, 1234.5, true), (kept.Frame.LatitudeDeg, kept.Frame.LongitudeDeg, kept.Frame.HeightM, kept.HasHeight));
        Assert.Equal(made.At(SampleWork.MorningS + 3.33).Velocity, kept.At(SampleWork.MorningS + 3.33).Velocity);
    }

    // Closed form: three members changed are three corrections; the values are those written.
    [Fact]
    public void Correct_Lift_KeepsWhatWasMeasuredAndListsTheChange()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        KeptLift read = store.Lifts.Find(id, 2)!.Lift;
        store.Lifts.Correct(read, read with { LoadKg = 650, LoadMeasured = false }, "Beat", Now, "weighed again");
        KeptLift again = store.Lifts.Find(id, 2)!.Lift;
        CorrectedLift corrected = store.Lifts.Correct(again, again with { StruckOut = true }, "Carla", Now.AddHours(1))!;

        Assert.Equal(SampleWork.Whole(read), SampleWork.Whole(corrected.AsKept));
        Assert.Equal((650.0, false, true), (corrected.Lift.LoadKg!.Value, corrected.Lift.LoadMeasured, corrected.Lift.StruckOut));
        Assert.Equal(
            [
                new("Beat", Now, "lift 2 loadKg", "780.767 kg", "650 kg", "weighed again"),
                new("Beat", Now, "lift 2 loadMeasured", "measured", "from the list", "weighed again"),
                new("Carla", Now.AddHours(1), "lift 2 struckOut", "a lift", "no lift of a load", null),
            ],
            corrected.Corrections);
        DayWork day = store.Days.Read(new(FirstOfJune));
        Assert.Equal((650, true), (day.Lifts[1].LoadKg, day.Lifts[1].StruckOut));
        Assert.Equal(3, day.Corrections.Count);
        Assert.Equal(day.Lifts.Count - 1, store.Lifts.ForBaselines("Anna", null).Count);
    }

    // Closed form: one correction for each of the seventeen members that can be changed.
    [Fact]
    public void Correct_EveryMember_ComesBack()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        KeptLift read = store.Lifts.Find(id, 1)!.Lift;
        KeptLift other = read with
        {
            LoadNumber = null, Family = "timber", LoadKg = null, LoadMeasured = false, PickUpTimeS = read.PickUpTimeS + 1.25, ApproachStartTimeS = null, StopTimeS = read.StopTimeS - 1, DeliveryTimeS = read.DeliveryTimeS + 0.1,
            ReleaseTimeS = null, ClearTimeS = null, PickUp = new(46.5, 8.25), Delivery = null, PickUpSite = null, DeliverySite = "Alp", LineM = 25.5, GoArounds = 0, StruckOut = true,
        };
        CorrectedLift corrected = store.Lifts.Correct(read, other, "Beat", Now)!;
        Assert.Equal(SampleWork.Whole(other), SampleWork.Whole(corrected.Lift));
        Assert.Equal(17, corrected.Corrections.Count);
    }

    [Fact]
    public void Correct_WhatOnlyTheRecordCanTell_IsRefused()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        KeptLift read = store.Lifts.Find(id, 1)!.Lift;
        Assert.Throws<ArgumentException>(() => store.Lifts.Correct(read, read with { Measures = null }, "Beat", Now));
        Assert.Throws<ArgumentOutOfRangeException>(() => store.Lifts.Correct(read, read with { DeliveryTimeS = double.PositiveInfinity }, "Beat", Now));
        Assert.Empty(store.Lifts.Find(id, 1)!.Corrections);
    }

    [Fact]
    public void SaveWork_Anew_CorrectionsStayWithTheirLifts()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        KeptLift second = store.Lifts.Find(id, 2)!.Lift, third = store.Lifts.Find(id, 3)!.Lift;
        store.Lifts.Correct(second, second with { Family = "timber" }, "Beat", Now);
        store.Lifts.Correct(third, third with { Family = "steel" }, "Beat", Now);

        // A better finder sees one lift before the others and misses the third.
        FlightWork anew = SampleWork.Flight() with
        {
            Lifts = [SampleWork.Lift(1, SampleWork.MorningS + 60), SampleWork.Lift(2, SampleWork.MorningS + 241), SampleWork.Lift(3, SampleWork.MorningS + 482)],
        };
        Assert.True(store.Flights.SaveWork(id, anew));
        Assert.Equal(["concrete", "concrete", "timber"], store.Lifts.OfFlight(id).Select(l => l.Lift.Family));
        Assert.Equal("concrete", store.Lifts.Find(id, 3)!.AsKept.Family);
        Assert.Equal(2, store.Lifts.Find(id, 3)!.AsKept.Measures!.Gates.Count);

        // The third is found again by the next reading, with what was corrected.
        store.Flights.SaveWork(id, SampleWork.Flight());
        Assert.Equal(["concrete", "timber", "steel"], store.Lifts.OfFlight(id).Select(l => l.Lift.Family));
    }

    // Closed form: the three lifts of the flight before.
    [Fact]
    public void SaveWork_NotANumber_IsRefusedAndNothingChanges()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("day.gpx", Content("abc"), Now, null, SampleWork.Flight()).Flight.Id;
        FlightWork bad = SampleWork.Flight(lifts: 1) with { Lifts = [SampleWork.Lift(1, SampleWork.MorningS) with { LineM = double.NaN }] };
        Assert.Throws<ArgumentOutOfRangeException>(() => store.Flights.SaveWork(id, bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => store.Flights.Add("b.gpx", Content("other"), Now, null, bad));
        Assert.Equal(3, store.Lifts.OfFlight(id).Count);
        Assert.Single(store.Flights.List());
        Assert.False(store.Flights.SaveWork(999, SampleWork.Flight()));
    }

    // Closed form: two lifts added, numbered from one.
    [Fact]
    public void AddByHand_LiftWithoutRecord_StandsInItsDayWithWhoSaidSo()
    {
        WorkStore store = Open();
        KeptLift made = new() { Number = 77, LoadKg = 500, DeliveryTimeS = SampleWork.MorningS };
        Assert.Equal(1, store.Lifts.AddByHand(made, FirstOfJune, "HB-XYZ", "Beat", Now, "recorder off").Lift.Number);
        Assert.Equal(2, store.Lifts.AddByHand(made, FirstOfJune, "HB-XYZ", "Beat", Now).Lift.Number);
        DayWork day = store.Days.Read(new(FirstOfJune, "HB-XYZ"));
        Assert.Equal(2, day.Lifts.Count);
        Assert.True(day.Lifts[0].AddedByHand);
        Assert.Equal(new Correction("Beat", Now, "lift by hand 1 added", "no lift", "a lift", "recorder off"), day.Corrections[0]);
        Assert.Empty(store.Days.Read(new(FirstOfJune, "HB-AAA")).Lifts);
        Assert.NotNull(store.Lifts.Find(0, 2, addedByHand: true));
    }

    [Fact]
    public void Jobs_RevisionsAndSites_ComeBack()
    {
        WorkStore store = Open();
        KeptSite site = store.Sites.Save("Hütte", 46.1234567890123, 8.25, "{ // a site\n}", "Anna", Now);
        string first = "{\r\n  // as it came\r\n  \"job\": \"Hütte – Beton\",\r\n}\r\n";
        KeptJob job = store.Jobs.Save(new("Beton", first, FirstOfJune, "Europe/Zurich", "HB-XYZ") { Sites = [site.Key] }, "Anna", Now);
        store.Jobs.Save(new("Beton", first, FirstOfJune, "Europe/Zurich", "HB-XYZ") { Sites = [site.Key] }, "Anna", Now.AddHours(1), job.Key);
        store.Jobs.Save(new("Beton 2", "{}", FirstOfJune, "Europe/Zurich", "HB-XYZ"), "Beat", Now.AddHours(2), job.Key);

        KeptJob kept = Open().Jobs.Find(job.Key)!;
        Assert.Equal(("Beton 2", "{}", 2), (kept.Name, kept.Text, kept.Revision));
        Assert.Equal([new(1, first, "Anna", Now), new JobRevision(2, "{}", "Beat", Now.AddHours(2))], store.Jobs.Revisions(job.Key));
        Assert.Equal([site.Key], job.Sites);
        Assert.Equal(site, Open().Sites.Find(site.Key));
        Assert.True(store.Jobs.Remove(job.Key));
        Assert.Empty(store.Jobs.List());
        Assert.True(store.Sites.Remove(site.Key));
        Assert.Throws<ArgumentException>(() => store.Jobs.Save(new("x", "{}", TimeZone: "Nowhere/Land"), "Anna", Now));
        Assert.Throws<ArgumentException>(() => store.Jobs.Save(new("x", "a\0b"), "Anna", Now));
        Assert.Throws<ArgumentException>(() => store.Jobs.Save(new("x", "half \ud800"), "Anna", Now));
        Assert.Empty(store.Jobs.List());
    }

    [Fact]
    public void Jobs_Amended_WriteOverTheRevisionUntilACardWasIssued()
    {
        JobStore jobs = Open().Jobs;
        Guid key = jobs.Save(new("Beton", "{}"), "Anna", Now).Key;

        Assert.Equal((1, "{1}"), Latest(jobs.Amend(key, 1, _ => new("Beton", "{1}"), "Beat", Now.AddMinutes(1))));
        jobs.IssueCard(key, "cockpit.pdf", "application/pdf", [1], Now.AddMinutes(2));
        Assert.Equal((2, "{2}"), Latest(jobs.Amend(key, 1, _ => new("Beton", "{2}"), "Beat", Now.AddMinutes(3))));
        Assert.Null(jobs.Amend(key, 1, _ => new("Beton", "{lost}"), "Beat", Now.AddMinutes(4)));
        Assert.Null(jobs.Amend(Guid.NewGuid(), null, _ => new("Beton", "{}"), "Beat", Now));
        Assert.Equal((3, "{3}"), Latest(jobs.Amend(key, 2, _ => new("Beton", "{3}"), "Beat", Now.AddMinutes(5), newRevision: true)));
        Assert.Equal(["{1}", "{2}", "{3}"], Open().Jobs.Revisions(key).Select(r => r.Text));

        static (int, string) Latest(KeptJob? job) => (job!.Revision, job.Text);
    }

    [Fact]
    public void Cards_AsIssued_ComeBackByteForByte()
    {
        WorkStore store = Open();
        Guid job = store.Jobs.Save(new("Beton", "{}"), "Anna", Now).Key;
        byte[] bytes = RandomNumberGenerator.GetBytes(5000);
        IssuedCard card = store.Jobs.IssueCard(job, "pilot.pdf", "application/pdf", bytes, Now);
        Assert.Equal(card, Assert.Single(store.Jobs.Cards(job)));
        Assert.Equal(bytes, store.Jobs.CardContent(card.Key));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes)), card.Digest);
        Assert.Throws<ArgumentException>(() => store.Jobs.IssueCard(Guid.NewGuid(), "pilot.pdf", "application/pdf", bytes, Now));
    }

    // Closed form: 4000 lifts and the last count of the flight, 25; 120.5 h and its 3.25 h once.
    [Fact]
    public void Parts_LogCounts_AndAFlightIsCountedOnce()
    {
        WorkStore store = Open();
        long flight = store.Flights.Add("day.gpx", Content("abc"), Now).Flight.Id;
        store.Parts.TakeIntoUse("L-30", PartKind.Line, "Anna", Now.AddDays(-100), 4000, 120.5);
        store.Parts.CountUse("L-30", flight, 24, 3.25, "Anna", Now);
        store.Parts.CountUse("L-30", flight, 24, 3.25, "Anna", Now.AddMinutes(1));
        store.Parts.CountUse("L-30", flight, 25, 3.25, "Anna", Now.AddMinutes(2));
        store.Parts.Add("L-30", new(PartEntryKind.Inspection, Now.AddHours(1), "Shop", NextDue: FirstOfJune.AddDays(365), Note: "no finding"));
        Assert.Equal([new("L-30", PartKind.Line, 4000, 120.5)], store.Parts.Counts(Now));
        Assert.Equal([new("L-30", PartKind.Line, 4025, 123.75)], store.Parts.Counts(Now.AddDays(1)));
        Assert.Empty(store.Parts.Counts(Now.AddDays(-101)));
        Assert.Equal([PartEntryKind.TakenIntoUse, PartEntryKind.Use, PartEntryKind.Use, PartEntryKind.Inspection], store.Parts.Log("L-30").Select(e => e.Kind));
        Assert.Equal(FirstOfJune.AddDays(365), store.Parts.Log("L-30")[3].NextDue);
        store.Flights.Remove(flight);
        Assert.Equal(4025, store.Parts.Counts(Now.AddDays(1))[0].Cycles);
        store.Parts.Add("L-30", new(PartEntryKind.Retired, Now.AddDays(2), "Shop"));
        Assert.Empty(store.Parts.Counts(Now.AddDays(3)));
        Assert.Throws<ArgumentException>(() => store.Parts.CountUse("L-31", 1, 1, 1, "Anna", Now));
    }

    // A hook is a part of the aircraft and of no job's rigging: it counts all the same; a line in the shed and another aircraft's hook do not.
    [Fact]
    public void Day_Parts_RiggingHookRuledPartsAndWhatTheDayWasCountedOn()
    {
        LiftRequest job = new()
        {
            Job = "beton", Aircraft = Planning.Jobs.Aircraft(Planning.Jobs.FlatChart(3600)) with { Name = "HB-XYZ" }, Rigging = [new() { Name = "L-30", Kind = PartKind.Line }],
            Policy = new() { PartRules = [new() { Name = "mast 4", Lifts = 20_000 }] },
        };
        WorkStore store = Open(new() { ReadJob = _ => job });
        store.Jobs.Save(new("beton", "{}", FirstOfJune, "UTC", "HB-XYZ"), "Anna", Now);
        long mine = store.Flights.Add("a", Content("1"), Now, null, SampleWork.Flight()).Flight.Id, other = store.Flights.Add("b", Content("2"), Now, null, SampleWork.Flight(aircraft: "HB-AAA")).Flight.Id;
        foreach ((string name, PartKind kind) in new[] { ("L-30", PartKind.Line), ("L-40", PartKind.Line), ("hook 1", PartKind.CargoHook), ("hook 2", PartKind.CargoHook), ("mast 4", PartKind.Other), ("HB-XYZ", PartKind.Other), ("net", PartKind.Net) })
            store.Parts.TakeIntoUse(name, kind, "Anna", Now.AddDays(-100), 400, 12.5);
        store.Parts.CountUse("hook 2", other, 3, 1, "Anna", Now);
        store.Parts.CountUse("net", mine, 2, 0.5, "Anna", Now);
        Assert.Equal(["HB-XYZ", "L-30", "hook 1", "mast 4", "net"], store.Days.Read(new(FirstOfJune, "HB-XYZ")).Parts.Select(p => p.Name));
        job = job with { Rigging = [.. job.Rigging, new() { Name = "hook 2", Kind = PartKind.CargoHook }] };
        Assert.Equal(["HB-XYZ", "L-30", "hook 2", "mast 4", "net"], store.Days.Read(new(FirstOfJune, "HB-XYZ")).Parts.Select(p => p.Name));
    }

    // Rest is a person's and not an aircraft's: the day before counts on whatever aircraft, and what was withdrawn does not.
    [Fact]
    public void Day_DutyOfTheDayBefore_OnAnyAircraft()
    {
        WorkStore store = Open();
        DutySpell late = new("Anna", new(SampleWork.MorningS - 50_000, SampleWork.MorningS - 40_000), null), wrong = late with { Note = "wrong" };
        store.Days.Add(new(FirstOfJune.AddDays(-1), "HB-AAA"), late, "Beat", Now);
        Assert.True(store.Days.Withdraw(store.Days.Add(new(FirstOfJune.AddDays(-1), "HB-XYZ"), wrong, "Beat", Now), "Beat", Now));
        store.Days.Add(new(FirstOfJune.AddDays(-2), "HB-XYZ"), late with { Note = "two days before" }, "Beat", Now);
        DayWork day = store.Days.Read(new(FirstOfJune, "HB-XYZ"));
        Assert.Equal([late], day.DutyBefore);
        Assert.Empty(day.Duty);
    }

    [Fact]
    public void Day_EntriesOfEveryKind_ComeBackAndWithdrawnOnesStayReadable()
    {
        WorkStore store = Open();
        WorkDay day = new(FirstOfJune, "HB-XYZ");
        TallyEntry tally = new(1, SampleWork.MorningS, "01", 780.5, "wet"), wrong = new(2, null, null, null, null);
        TimeMark mark = new(new(SampleWork.MorningS, SampleWork.MorningS + 600), TimeUse.WaitingOnCustomer, "no crew", true);
        EventMark snag = new(SampleWork.MorningS + 5, EventKind.Snag, "net on a root");
        FuelEntry fuel = new(SampleWork.MorningS + 7, 310.5, null);
        DutySpell duty = new("Anna", new(SampleWork.MorningS - 7200, SampleWork.MorningS + 20000), null);
        store.Days.Add(day, tally, "Beat", Now);
        Guid key = store.Days.Add(day, wrong, "Beat", Now);
        store.Days.Add(day, mark, "Beat", Now);
        store.Days.Add(day, snag, "Beat", Now);
        store.Days.Add(day, fuel, "Beat", Now);
        store.Days.Add(day with { Aircraft = null }, duty, "Beat", Now);
        Assert.True(store.Days.Withdraw(key, "Carla", Now, "twice"));
        Assert.False(store.Days.Withdraw(key, "Carla", Now));

        DayWork read = Open().Days.Read(day);
        Assert.Equal([tally], read.Tally);
        Assert.Equal([mark], read.TimeMarks);
        Assert.Equal([snag], read.Events);
        Assert.Equal([fuel], read.Fuel);
        Assert.Equal([duty], read.Duty);
        Assert.Empty(Open().Days.Read(day with { Aircraft = "HB-AAA" }).Tally);
        Assert.Equal([new DayEntry<TallyEntry>(key, wrong, "Beat", Now, "Carla", Now, "twice")], store.Days.Entries<TallyEntry>(day).Skip(1));
    }

    [Fact]
    public void Day_FollowsTheJobsTimeZone()
    {
        WorkStore store = Open(new() { ReadJob = text => new LiftRequest { Job = text } });
        // Closed form: Auckland is UTC+12 in June, so 1 June there is 31 May 12:00 to 1 June 12:00 UTC.
        double startS = (new DateTimeOffset(2026, 5, 31, 12, 0, 0, TimeSpan.Zero) - DateTimeOffset.UnixEpoch).TotalSeconds;
        store.Jobs.Save(new("South", "south", FirstOfJune, "Pacific/Auckland", "ZK-A"), "Anna", Now);
        store.Flights.Add("before", Content("1"), Now, null, SampleWork.Flight(startS - 1, aircraft: "ZK-A"));
        store.Flights.Add("first", Content("2"), Now, null, SampleWork.Flight(startS, aircraft: "ZK-A"));
        store.Flights.Add("last", Content("3"), Now, null, SampleWork.Flight(startS + 86399, aircraft: "ZK-A"));
        store.Flights.Add("after", Content("4"), Now, null, SampleWork.Flight(startS + 86400, aircraft: "ZK-A"));
        store.Flights.Add("other aircraft", Content("5"), Now, null, SampleWork.Flight(startS + 4000, aircraft: "ZK-B"));
        DayWork day = store.Days.Read(new(FirstOfJune, "ZK-A"));
        Assert.Equal(["first", "last"], day.Flights.Select(f => f.Name));
        Assert.Equal("south", day.Job!.Job);
        Assert.Equal(new DateTimeOffset(2026, 6, 1, 0, 0, 0, TimeSpan.FromHours(12)), day.Clock(startS));
        Assert.Equal(TimeSpan.FromHours(12), day.Clock(startS).Offset);
        Assert.Equal(["before", "first", "other aircraft"], store.Days.Read(new(new(2026, 5, 31)), "UTC").Flights.Select(f => f.Name));
    }

    [Fact]
    public void Days_List_ShowsEveryDayWithWork()
    {
        WorkStore store = Open();
        Guid job = store.Jobs.Save(new("South", "x", new(2026, 7, 1), "Pacific/Auckland"), "Anna", Now).Key;
        // 31 May 13:00 UTC is 1 June in Auckland and 31 May elsewhere.
        double s = (new DateTimeOffset(2026, 5, 31, 13, 0, 0, TimeSpan.Zero) - DateTimeOffset.UnixEpoch).TotalSeconds;
        store.Flights.Add("a", Content("1"), Now, null, SampleWork.Flight(s, job: job));
        store.Flights.Add("b", Content("2"), Now, null, SampleWork.Flight(s - 86400));
        store.Days.Add(new(new(2026, 6, 9)), new EventMark(1, EventKind.Snag, null), "Anna", Now);
        Assert.Equal([new(2026, 7, 1), new(2026, 6, 9), new(2026, 6, 1), new(2026, 5, 30)], store.Days.List());
    }

    // Closed form: three lifts of the first day, two of the second; four on the other aircraft.
    [Fact]
    public void ForBaselines_OnePilotOrAircraft_ItsLiftsWithTheirMeasures()
    {
        WorkStore store = Open();
        store.Flights.Add("b", Content("1"), Now, null, SampleWork.Flight(SampleWork.MorningS + 86400, 2));
        store.Flights.Add("a", Content("2"), Now, null, SampleWork.Flight(SampleWork.MorningS, 3));
        store.Flights.Add("c", Content("3"), Now, null, SampleWork.Flight(SampleWork.MorningS, 4, "Beat", "HB-AAA"));
        IReadOnlyList<KeptLift> made = [.. SampleWork.Flight(SampleWork.MorningS + 86400, 2).Lifts, .. SampleWork.Flight(SampleWork.MorningS, 3).Lifts];
        Assert.Equal(MeasuredLift.Of(made).OrderBy(l => l.AtS), store.Lifts.ForBaselines("Anna", null).OrderBy(l => l.AtS));
        Assert.Equal(4, store.Lifts.ForBaselines(null, "HB-AAA").Count);
        Assert.Empty(store.Lifts.ForBaselines("Anna", "HB-AAA"));
    }

    // The same baselines by the quick way as by whole lifts, with corrections of everything that goes into them.
    [Fact]
    public void ForBaselines_CorrectedLifts_SameBaselinesAsFromWholeLifts()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("b", Content("1"), Now, null, SampleWork.Flight(SampleWork.MorningS, 14)).Flight.Id;
        void Change(int number, Func<KeptLift, KeptLift> change, int hours = 0)
        {
            KeptLift read = store.Lifts.Find(id, number)!.Lift;
            store.Lifts.Correct(read, change(read), "Beat", Now.AddHours(hours));
        }

        Change(1, l => l with { Family = "timber", LineM = 60, PickUpSite = "hut ä", DeliverySite = null });
        Change(2, l => l with { StruckOut = true });
        Change(3, l => l with { StruckOut = true });
        Change(3, l => l with { StruckOut = false, DeliveryTimeS = l.DeliveryTimeS + 5 }, hours: 1);
        IReadOnlyList<KeptLift> whole = [.. store.Lifts.OfFlight(id).Select(l => l.Lift)];
        IReadOnlyList<MeasuredLift> quick = store.Lifts.ForBaselines("Anna", null);
        Assert.Equal(MeasuredLift.Of(whole).OrderBy(l => l.AtS), quick.OrderBy(l => l.AtS));
        Assert.Equal(13, quick.Count);
        Assert.Equal(CycleBaseline.Of(whole), CycleBaseline.Of(quick));
        Assert.Equal(DeliveryBaseline.Of("Anna", whole).SelectMany(b => b.Measures), DeliveryBaseline.Of("Anna", quick).SelectMany(b => b.Measures));
    }

    // Closed form: a load of 780.25 kg that was 700 kg takes 80.25 kg off the mass; a lift that was none takes its hovers along.
    [Fact]
    public void Hovers_LoadCorrectedOrLiftStruckOut_Follow()
    {
        WorkStore store = Open();
        FlightWork work = SampleWork.Flight();
        long id = store.Flights.Add("b", Content("1"), Now, null, work).Flight.Id;
        KeptLift first = store.Lifts.Find(id, 1)!.Lift;
        Assert.InRange(work.Hovers[0].AtS, first.PickUpTimeS!.Value, first.DeliveryTimeS!.Value);
        store.Lifts.Correct(first, first with { LoadKg = 700 }, "Beat", Now);
        HoverPoint read = store.Flights.Hovers("HB-XYZ")[0];
        Assert.Equal(work.Hovers[0].GrossKg - 80.25, read.GrossKg, 1e-9);
        Assert.Equal(work.Hovers, store.Flights.HoversOf(id));
        KeptLift again = store.Lifts.Find(id, 1)!.Lift;
        store.Lifts.Correct(again, again with { StruckOut = true }, "Beat", Now);
        Assert.Equal([ForBaseline(work.Hovers[1])], store.Flights.Hovers("HB-XYZ"));
    }

    [Fact]
    public void SaveHovers_FuelBecomesKnown_TakeThePlaceOfThoseKept()
    {
        WorkStore store = Open();
        long id = store.Flights.Add("b", Content("1"), Now, null, SampleWork.Flight()).Flight.Id;
        HoverPoint[] now = [.. store.Flights.HoversOf(id).Select(h => h.WithFuel(new(150, FuelFrom.Plan)))];
        Assert.True(store.Flights.SaveHovers(id, now));
        Assert.Equal(now, store.Flights.HoversOf(id));
        Assert.Equal(now.Select(ForBaseline), store.Flights.Hovers("HB-XYZ"));
        Assert.False(store.Flights.SaveHovers(id + 99, now));
    }

    [Fact]
    public void Migrations_GiveTheModelOfToday() =>
        Assert.False(Open().Read(context => Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.HasPendingModelChanges(context.Database)));

    /// <summary>As read for a baseline: load and fuel are in the mass and not told apart.</summary>
    private static HoverPoint ForBaseline(HoverPoint hover) => hover with { LoadKg = null, FuelKg = null };

    internal static MemoryStream Content(string text) => new(Encoding.UTF8.GetBytes(text));

    private static bool ComparePair((double[] A, double[] B) a, (double[] A, double[] B) b) => a.A.SequenceEqual(b.A) && a.B.SequenceEqual(b.B);
}
