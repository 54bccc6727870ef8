using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>Writes what was worked out from a flight, inside a writing transaction.</summary>
internal static class FlightWriter
{
    private const double SameLiftS = 30;

    public static void Replace(StillhookContext context, FlightRow flight, FlightWork work)
    {
        long id = flight.Id;
        context.FlightWork.Where(w => w.FlightId == id).ExecuteDelete();
        context.Tracks.Where(t => t.FlightId == id).ExecuteDelete();
        context.Exceedances.Where(e => e.FlightId == id).ExecuteDelete();
        context.FlightWork.Add(new()
        {
            FlightId = id,
            JobKey = work.Job,
            Pilot = Kept.OptionalText(work.Pilot),
            Aircraft = Kept.OptionalText(work.Aircraft),
            FromS = Kept.Number(work.Recorded.FromS),
            ToS = Kept.Number(work.Recorded.ToS),
            AirborneJson = StoreJson.Write(work.Airborne),
        });
        if (work.Summary is not null)
            flight.SummaryJson = JsonSerializer.Serialize(work.Summary);
        Hovers(context, id, work.Hovers);
        context.Exceedances.AddRange(work.Exceedances.Select(e => new ExceedanceRow
        {
            FlightId = id, Kind = e.Kind, Limit = Kept.Number(e.Limit), Peak = Kept.Number(e.Peak), AtS = Kept.Number(e.AtS), DurationS = Kept.Number(e.DurationS),
        }));
        if (work.Track is { } track)
        {
            context.Tracks.Add(TrackColumns.Frame(id, track));
            context.TrackColumns.AddRange(TrackColumns.Columns(id, track));
        }
        Lifts(context, id, work.Lifts);
    }

    /// <summary>Hovers of a flight anew.</summary>
    public static void Hovers(StillhookContext context, long id, IReadOnlyList<HoverPoint> hovers)
    {
        context.HoverPoints.Where(h => h.FlightId == id).ExecuteDelete();
        context.HoverPoints.AddRange(hovers.Select(h => Hover(id, h)));
    }

    private static HoverPointRow Hover(long id, HoverPoint h) => new()
    {
        FlightId = id,
        AtS = Kept.Number(h.AtS),
        Aircraft = Kept.Text(h.Aircraft),
        Pilot = Kept.OptionalText(h.Pilot),
        DensityAltitudeM = Kept.Number(h.DensityAltitudeM),
        GrossKg = Kept.Number(h.GrossKg),
        TorquePercent = Kept.OptionalNumber(h.TorquePercent),
        PowerKw = Kept.OptionalNumber(h.PowerKw),
        LoadKg = Kept.OptionalNumber(h.LoadKg),
        FuelKg = Kept.OptionalNumber(h.FuelKg),
        FuelFrom = h.FuelFrom,
    };

    private static void Lifts(StillhookContext context, long id, IReadOnlyList<KeptLift> measured)
    {
        List<LiftRow> old = [.. context.Lifts.Where(l => l.FlightId == id && !l.AddedByHand)];
        long[] ids = [.. old.Select(o => o.Id)];
        HashSet<long> corrected = [.. context.Corrections.Where(c => ids.Contains(c.LiftId)).Select(c => c.LiftId)];
        List<LiftRow> corrections = [.. old.Where(o => corrected.Contains(o.Id))];
        // Lifts that nobody corrected are simply written anew.
        context.Lifts.Where(l => l.FlightId == id && !l.AddedByHand && !corrected.Contains(l.Id)).ExecuteDelete();
        foreach (LiftRow row in old.Except(corrections))
            context.Entry(row).State = EntityState.Detached;
        context.LiftMeasures.Where(m => corrected.Contains(m.LiftId)).ExecuteDelete();
        List<(LiftRow Row, KeptLift Lift)> written = [];
        foreach (KeptLift lift in measured)
        {
            LiftRow fresh = LiftRows.From(lift);
            LiftRow row = fresh;
            if (SameLift(corrections, fresh) is { } before)
            {
                corrections.Remove(before);
                (fresh.Id, fresh.Key) = (before.Id, before.Key);
                context.Entry(before).CurrentValues.SetValues(fresh);
                row = before;
            }
            else
                context.Lifts.Add(fresh);
            row.FlightId = id;
            row.AddedByHand = false;
            written.Add((row, lift));
        }
        foreach (LiftRow lost in corrections)
            lost.NotFoundAgain = true;
        context.SaveChanges(); // gives the lifts their numbers
        context.LiftMeasures.AddRange(written.Where(w => w.Lift.Measures is not null).Select(w => new LiftMeasuresRow { LiftId = w.Row.Id, Json = StoreJson.Write(w.Lift.Measures!) }));
        context.SaveChanges();
    }

    /// <summary>The lift of the same moment among those that people corrected.</summary>
    private static LiftRow? SameLift(List<LiftRow> corrected, LiftRow fresh) => corrected
        .Where(c => c.AtS is { } at && fresh.AtS is { } now ? Math.Abs(at - now) <= SameLiftS : c.AtS is null && fresh.AtS is null && c.Number == fresh.Number)
        .MinBy(c => Math.Abs((c.AtS ?? 0) - (fresh.AtS ?? 0)));
}
