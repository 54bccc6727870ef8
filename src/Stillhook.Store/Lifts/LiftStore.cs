using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>A lift with what people changed in it.</summary>
/// <param name="Lift">With the changes in place.</param>
/// <param name="AsKept">As measured, or as first added by hand.</param>
/// <param name="Corrections">The changes in the order made.</param>
public sealed record CorrectedLift(KeptLift Lift, KeptLift AsKept, IReadOnlyList<Correction> Corrections);

/// <summary>Lifts: as measured, never written over; people's corrections stand beside them and are put in place when a lift is read.</summary>
public sealed class LiftStore
{
    private readonly WorkStore store;

    internal LiftStore(WorkStore store) => this.store = store;

    /// <summary>One lift; null when there is none.</summary>
    /// <param name="flightId">Its flight; 0 for one added by hand outside any flight.</param>
    /// <param name="number">Its number there.</param>
    /// <param name="addedByHand">Whether somebody added it.</param>
    public CorrectedLift? Find(long flightId, int number, bool addedByHand = false) =>
        store.Read(context => Row(context, flightId, number, addedByHand) is { } row ? LiftReader.Corrected(context, [row])[0] : null);

    /// <summary>The lifts of one flight in order of time.</summary>
    public IReadOnlyList<CorrectedLift> OfFlight(long flightId) => store.Read(context =>
        LiftReader.Corrected(context, [.. context.Lifts.AsNoTracking().Where(l => l.FlightId == flightId && !l.NotFoundAgain).OrderBy(l => l.AtS).ThenBy(l => l.Number)]));

    /// <summary>Changes a lift. What was measured stays as it was; each member that differs becomes one correction.</summary>
    /// <param name="asRead">The lift as it was read, so that nothing somebody else changed meanwhile is undone.</param>
    /// <param name="asItShouldBe">The same with the changes.</param>
    /// <param name="by">Who.</param>
    /// <param name="at">When, as the caller's clock says.</param>
    /// <param name="why">Reason, when one is given.</param>
    /// <returns>The lift with its corrections; null when there is no such lift.</returns>
    /// <exception cref="ArgumentException">A member differs that only the record can tell.</exception>
    public CorrectedLift? Correct(KeptLift asRead, KeptLift asItShouldBe, string by, DateTimeOffset at, string? why = null)
    {
        ArgumentNullException.ThrowIfNull(asRead);
        ArgumentNullException.ThrowIfNull(asItShouldBe);
        ArgumentException.ThrowIfNullOrEmpty(by);
        _ = LiftRows.From(asItShouldBe); // refuses what can't be kept
        List<LiftMember> changed = [.. LiftMember.All.Where(m => !m.Same(asRead, asItShouldBe))];
        KeptLift rebuilt = changed.Aggregate(asRead, (lift, m) => m.Set(lift, m.Json(asItShouldBe)));
        if (rebuilt != asItShouldBe)
            throw new ArgumentException("Only what the crew knows better can be corrected; measures, confidence, flight and number stay as the record has them.", nameof(asItShouldBe));
        return store.Write(context =>
        {
            if (Row(context, asRead.FlightId, asRead.Number, asRead.AddedByHand) is not { } row)
                return null;
            KeptLift now = LiftReader.Corrected(context, [row])[0].Lift;
            foreach (LiftMember member in changed.Where(m => !m.Same(now, asItShouldBe)))
                context.Corrections.Add(new()
                {
                    Key = Guid.CreateVersion7(),
                    LiftId = row.Id,
                    Member = member.Name,
                    Old = member.Words(now),
                    New = member.Words(asItShouldBe),
                    NewJson = member.Json(asItShouldBe),
                    By = Kept.Text(by),
                    At = at,
                    Why = Kept.OptionalText(why),
                });
            context.SaveChanges();
            return LiftReader.Corrected(context, [row])[0];
        });
    }

    /// <summary>Adds a lift that no record shows; who added it is listed as its first correction.</summary>
    /// <param name="lift">The lift; its number is given by the store.</param>
    /// <param name="day">Local day it belongs to when it has no flight.</param>
    /// <param name="aircraft">Aircraft's name, when known.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="at">When, as the caller's clock says.</param>
    /// <param name="why">Reason, when one is given.</param>
    public CorrectedLift AddByHand(KeptLift lift, DateOnly day, string? aircraft, string by, DateTimeOffset at, string? why = null)
    {
        ArgumentNullException.ThrowIfNull(lift);
        ArgumentException.ThrowIfNullOrEmpty(by);
        return store.Write(context =>
        {
            LiftRow row = LiftRows.From(lift with { AddedByHand = true, Measures = null });
            row.Day = day;
            row.Aircraft = Kept.OptionalText(aircraft);
            row.Number = (context.Lifts.Where(l => l.FlightId == row.FlightId && l.AddedByHand).Max(l => (int?)l.Number) ?? 0) + 1;
            context.Lifts.Add(row);
            context.SaveChanges();
            context.Corrections.Add(new()
            {
                Key = Guid.CreateVersion7(), LiftId = row.Id, Member = LiftReader.Added, Old = "no lift", New = "a lift", NewJson = "true", By = Kept.Text(by), At = at, Why = Kept.OptionalText(why),
            });
            context.SaveChanges();
            return LiftReader.Corrected(context, [row])[0];
        });
    }

    /// <summary>Every measured lift of one pilot, of one aircraft, or of both, for baselines over years. Corrections are in place, and what was struck out is left out.</summary>
    /// <param name="pilot">Whose; null for all.</param>
    /// <param name="aircraft">With which; null for all.</param>
    public IReadOnlyList<MeasuredLift> ForBaselines(string? pilot, string? aircraft) => store.Read(context => BaselineReader.Lifts(context, pilot, aircraft));

    private static LiftRow? Row(StillhookContext context, long flightId, int number, bool addedByHand)
    {
        long? flight = flightId == 0 ? null : flightId;
        return context.Lifts.AsNoTracking().FirstOrDefault(l => l.FlightId == flight && l.Number == number && l.AddedByHand == addedByHand && !l.NotFoundAgain);
    }
}

/// <summary>Puts corrections in place.</summary>
internal static class LiftReader
{
    /// <summary>Member of the correction that says a lift was added by hand.</summary>
    public const string Added = "added";

    /// <summary>The lifts of some rows, in their order.</summary>
    public static List<CorrectedLift> Corrected(StillhookContext context, IReadOnlyList<LiftRow> rows)
    {
        long[] ids = [.. rows.Select(r => r.Id)];
        Dictionary<long, string> measures = context.LiftMeasures.AsNoTracking().Where(m => ids.Contains(m.LiftId)).ToDictionary(m => m.LiftId, m => m.Json);
        ILookup<long, CorrectionRow> corrections = context.Corrections.AsNoTracking().Where(c => ids.Contains(c.LiftId)).OrderBy(c => c.Id).AsEnumerable().ToLookup(c => c.LiftId);
        return [.. rows.Select(r =>
        {
            KeptLift kept = LiftRows.ToLift(r, measures.GetValueOrDefault(r.Id));
            return new CorrectedLift(Apply(kept, corrections[r.Id]), kept, [.. corrections[r.Id].Select(c => Say(kept, c))]);
        })];
    }

    /// <summary>A lift with its corrections, in the order made.</summary>
    public static KeptLift Apply(KeptLift lift, IEnumerable<CorrectionRow> corrections) =>
        corrections.Aggregate(lift, (l, c) => LiftMember.Named(c.Member)?.Set(l, c.NewJson) ?? l);

    private static Correction Say(KeptLift lift, CorrectionRow c) =>
        new(c.By, c.At, string.Create(CultureInfo.InvariantCulture, $"{(lift.AddedByHand ? "lift by hand" : "lift")} {lift.Number} {c.Member}"), c.Old, c.New, c.Why);
}
