using Stillhook.Planning;
using Stillhook.Planning.Rigging;
using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Tests.Planning.Rigging;

public class RiggingCheckerTests
{
    private static readonly DateOnly Day = new(2026, 6, 1);

    // Closed form, worked by hand: load 1000 kg on two legs at 60°: 1000/(2·0.8660254) = 577.35 kg a leg, 577.35/800 = 72.2 % of a leg's mark.
    // Above it: swivel 1008 of 3000 (sling 8), remote hook 1013 of 1200 = 84.4 % (swivel 5), line 1028 of 1500 (remote hook 15), ring 1050 of
    // 2000 (line 22), hook 1052 of 1400 = 75.1 % (ring 2). Weakest: the remote hook, full at 1200 − 13 = 1187 kg of load.
    [Fact]
    public void Check_HookRingLineSwivelTwoLegs_GivesTensionAndWeakestPart()
    {
        RiggingReport report = Check(Request());
        Assert.Equal(["hook", "ring", "line", "remote hook", "swivel", "sling"], report.Parts.Select(p => p.Name));
        Assert.Equal([1052, 1050, 1028, 1013, 1008, 577.35], report.Parts.Select(p => Math.Round(Kg(p.StaticLoad), 2)));
        Assert.Equal([75.14, 52.50, 68.53, 84.42, 33.60, 72.17], report.Parts.Select(p => Math.Round(Percent(p.Use!), 2)));
        Assert.Equal("remote hook", report.Weakest!.Name);
        Assert.Equal(1187, report.MaxLoadKg!.Value, 1e-9);
        // The aircraft's own hook is part of the weighed aircraft: 2 + 22 + 15 + 5 + 8.
        Assert.Equal(52, report.HangingMassKg, 1e-9);
        Assert.Equal(CheckVerdict.Passes, report.Verdict);
        Assert.All(report.Parts, p => Assert.Contains("good until", p.Reason, StringComparison.Ordinal));
    }

    // Closed form: 1,000 kg on two legs at 60 degrees, 500 kg / sin 60.
    [Fact]
    public void Check_UnmarkedSling_Fails()
    {
        RiggingReport report = Check(Request(sling: s => s with { RatedLoad = null }));
        RiggedPart sling = report.Parts[^1];
        Assert.Equal(CheckVerdict.Fails, sling.Verdict);
        Assert.Contains("No rated load", sling.Reason, StringComparison.Ordinal);
        Assert.Null(sling.Limit);
        Assert.Equal(577.35, Kg(sling.StaticLoad), 0.01);
        Assert.Equal(CheckVerdict.Fails, report.Verdict);
        Assert.Contains("without a mark", report.MaxLoad!.Note, StringComparison.Ordinal);
    }

    // Closed form: the heaviest load found by the report uses the weakest part to 100 %, one kilogram more fails.
    [Theory]
    [InlineData(60, null)]
    [InlineData(35, null)]
    [InlineData(60, 0.3)]
    public void Check_LargestLoad_JustPasses(double deg, double? offsetM)
    {
        LiftRequest request = Request(attachment: a => a with { LegAngle = Angle.FromDegrees(deg), Span = Length.FromMeters(2), CentreOfGravityOffset = offsetM is { } m ? Length.FromMeters(m) : null });
        double max = Check(request).MaxLoadKg!.Value;
        RiggingReport at = RiggingChecker.Check(request, 0, Mass.FromKilograms(max), "load.7"), above = RiggingChecker.Check(request, 0, Mass.FromKilograms(max + 1), "load.7");
        Assert.Equal(100, Percent(at.Weakest!.Use!), 1e-6);
        Assert.Equal(CheckVerdict.Passes, at.Verdict);
        Assert.Equal(CheckVerdict.Fails, above.Verdict);
        Assert.Equal(max, above.MaxLoadKg!.Value, 1e-9);
    }

    // Closed form: 1052 kg on a hook of 5000 kg breaking strength is 4.753, under 5; the same with a factor of 4 passes; 3800 kg is 3.612, under 3.75 whatever is asked for.
    [Theory]
    [InlineData(5000, null, CheckVerdict.Fails)]
    [InlineData(5261, null, CheckVerdict.Passes)]
    [InlineData(5000, 4.0, CheckVerdict.Passes)]
    [InlineData(3800, 3.0, CheckVerdict.Fails)]
    [InlineData(3950, 3.0, CheckVerdict.Passes)]
    public void Check_BreakingStrength_IsHeldAgainstTheDesignFactor(double breakingKg, double? factor, CheckVerdict expected)
    {
        LiftRequest request = Request(part: p => p.Kind == PartKind.CargoHook ? p with { BreakingStrength = Mass.FromKilograms(breakingKg) } : p, policy: new() { DesignFactor = factor });
        RiggedPart hook = Check(request).Parts[0];
        Assert.Equal(expected, hook.Verdict);
        Assert.Equal(breakingKg / 1052, (double)hook.Strength!.Value.Quantity.As(ScalarUnit.Amount), 1e-9);
        Assert.Equal(Math.Min(1400, breakingKg / Math.Max(factor ?? 5, 3.75)), Kg(hook.Limit!), 1e-9);
    }

    // Closed form: four rigid legs at 45° count as two, 1000/(2·sin 45°) = 707.1; evened out as four, 353.6.
    [Theory]
    [InlineData(null, 707.107)]
    [InlineData(true, 353.553)]
    public void Check_FourLegs_CountsTwoUnlessEqualised(bool? equalised, double kg)
    {
        RiggingReport report = Check(Request(attachment: a => a with { Legs = 4, LegAngle = Angle.FromDegrees(45), Equalised = equalised }));
        Assert.Equal(kg, Kg(report.Parts[^1].StaticLoad), 0.001);
        Assert.Equal(equalised is null, report.Parts[^1].StaticLoad.Note.Length > 0);
    }

    // Closed form: span 2 m, legs at 60° centred, offset 0.3 m: 0.65/√(0.75 + 4·0.0225·0.25) = 0.739544; tilt atan(0.3/1.73205) = 9.83°, flattest leg 50.2°.
    [Fact]
    public void Check_OffCentreLoad_LoadsTheNearerLeg()
    {
        RiggingReport report = Check(Request(attachment: a => a with { Span = Length.FromMeters(2), CentreOfGravityOffset = Length.FromMeters(0.3) }));
        Assert.Equal(739.544, Kg(report.Parts[^1].StaticLoad), 0.01);
        Assert.Contains("10° out of level", report.Parts[^1].StaticLoad.Note, StringComparison.Ordinal);
        Assert.Equal(CheckVerdict.Passes, report.Parts[^1].Verdict);
    }

    [Fact]
    public void Check_OffCentreWithoutSpan_TakesTheWorstSplitAndAsks()
    {
        RiggedPart sling = Check(Request(attachment: a => a with { CentreOfGravityOffset = Length.FromMeters(0.3), LegAngle = Angle.FromDegrees(35) }, sling: s => s with { RatedLoad = Mass.FromKilograms(2000) })).Parts[^1];
        // Closed form: 1/sin 70° = 1.06418.
        Assert.Equal(1064.18, Kg(sling.StaticLoad), 0.01);
        Assert.Equal(CheckVerdict.ToConfirm, sling.Verdict);
    }

    [Fact]
    public void Check_CentreOfGravityOutsideTheLegs_Fails()
    {
        RiggingReport report = Check(Request(attachment: a => a with { Span = Length.FromMeters(2), CentreOfGravityOffset = Length.FromMeters(1) }));
        Assert.Equal(CheckVerdict.Fails, Item(report, "rigging-off-centre").Verdict);
    }

    // Published: no leg under 30° [OSHA-SLINGS]. The tilt of an off-centre load counts.
    [Theory]
    [InlineData(29, null, CheckVerdict.Fails)]
    [InlineData(30, null, CheckVerdict.Passes)]
    [InlineData(45, 0.5, CheckVerdict.Fails)]
    public void Check_FlatLeg_Fails(double deg, double? offsetM, CheckVerdict expected)
    {
        RiggingReport report = Check(Request(
            attachment: a => a with { LegAngle = Angle.FromDegrees(deg), Span = Length.FromMeters(2), CentreOfGravityOffset = offsetM is { } m ? Length.FromMeters(m) : null },
            sling: s => s with { RatedLoad = Mass.FromKilograms(2000) }));
        Assert.Equal(expected, report.Verdict);
        Assert.Equal(expected == CheckVerdict.Fails, report.Everything.Any(i => i.Code == "rigging-leg-angle"));
    }

    [Fact]
    public void Check_OperatorsSmallestAngle_Stands() =>
        Assert.Equal(CheckVerdict.Fails, Item(Check(Request(policy: new() { SmallestLegAngle = Angle.FromDegrees(61) })), "rigging-leg-angle").Verdict);

    // Closed form: no angle entered is worked at 30°, 1000 kg a leg, and says so.
    [Fact]
    public void Check_AngleNotEntered_TakesTheFlattestPermittedAndAsks()
    {
        RiggingReport report = Check(Request(attachment: a => a with { LegAngle = null }, sling: s => s with { RatedLoad = Mass.FromKilograms(2000) }));
        Assert.Equal(1000, Kg(report.Parts[^1].StaticLoad), 1e-9);
        Assert.Contains(report.Parts[^1].StaticLoad.Inputs, i => i is { From: InputFrom.Default, Where: "loads[0].attachment.legAngle" });
        Assert.Equal(CheckVerdict.ToConfirm, report.Verdict);
    }

    [Fact]
    public void Check_InspectionPassed_Fails() =>
        Assert.Equal(CheckVerdict.Fails, Item(Check(Request(part: p => p.Kind == PartKind.Line ? p with { InspectionDue = Day.AddDays(-1) } : p)), "rigging-inspection-passed").Verdict);

    [Fact]
    public void Check_InspectionOnItsLastDay_Passes() =>
        Assert.Equal(CheckVerdict.Passes, Check(Request(part: p => p with { InspectionDue = Day })).Verdict);

    [Fact]
    public void Check_InspectionNotEntered_IsRedButDoesNotFail()
    {
        CheckItem item = Item(Check(Request(part: p => p.Kind == PartKind.Swivel ? p with { InspectionDue = null } : p)), "rigging-inspection-not-entered");
        Assert.Equal(CheckVerdict.ToConfirm, item.Verdict);
        Assert.True(item.Red);
        Assert.Equal("rigging[4].inspectionDue", item.Path);
    }

    [Theory]
    [InlineData(null, CheckVerdict.ToConfirm)]
    [InlineData(false, CheckVerdict.Fails)]
    [InlineData(true, CheckVerdict.Passes)]
    public void Check_RingUnderTheHook_MustBeConfirmedByHand(bool? fits, CheckVerdict expected)
    {
        LiftRequest request = Request(part: p => p.Kind == PartKind.Ring ? p with { FitsHookAbove = fits } : p);
        Assert.Equal(expected, Item(Check(request), "rigging-ring-fit").Verdict);
        // The aircraft's hook is above the first part when nobody lists it; a ring under the line has no hook above it.
        Assert.Equal(expected, Item(Check(request with { Rigging = [.. request.Rigging.Skip(1)] }), "rigging-ring-fit").Verdict);
        Assert.DoesNotContain(Check(request with { Rigging = [request.Rigging[2], request.Rigging[1]] }).Everything, i => i.Code == "rigging-ring-fit");
    }

    [Theory]
    [InlineData(true, null, true)]
    [InlineData(null, LoadShape.Bulky, true)]
    [InlineData(null, LoadShape.Aerodynamic, true)]
    [InlineData(null, LoadShape.Dense, false)]
    public void Check_SpinningShapeWithoutSwivel_Asks(bool? spins, LoadShape? shape, bool asks)
    {
        LiftRequest with = Request(load: l => l with { Spins = spins, Shape = shape });
        LiftRequest without = with with { Rigging = [.. with.Rigging.Where(p => p.Kind != PartKind.Swivel)] };
        Assert.Equal(asks, Check(without).Items.Any(i => i.Code == "rigging-swivel"));
        Assert.DoesNotContain(Check(with).Items, i => i.Code == "rigging-swivel");
    }

    [Theory]
    [InlineData(LoadClass.A, CheckVerdict.ToConfirm)]
    [InlineData(LoadClass.C, CheckVerdict.Fails)]
    [InlineData(LoadClass.D, CheckVerdict.Fails)]
    public void Check_ClassOutsideThePlan_IsSaid(LoadClass loadClass, CheckVerdict expected) =>
        Assert.Equal(expected, Item(Check(Request(load: l => l with { Class = loadClass })), "rigging-load-class").Verdict);

    // Published: two legs of textile at 60° to the horizontal are rated 1.4 times one leg [EN-1492]; statics alone would permit 1.73 times.
    [Fact]
    public void Check_TwoSteepTextileLegsOverTheirTag_Asks()
    {
        RiggingReport report = Check(Request(sling: s => s with { Kind = PartKind.TextileSling, RatedLoad = Mass.FromKilograms(700) }));
        Assert.Equal(CheckVerdict.ToConfirm, Item(report, "rigging-sling-tag").Verdict);
        Assert.DoesNotContain(Check(Request(sling: s => s with { Kind = PartKind.TextileSling, RatedLoad = Mass.FromKilograms(715) })).Everything, i => i.Code == "rigging-sling-tag");
    }

    [Fact]
    public void Check_NothingEntered_AsksAndNeverPasses()
    {
        RiggingReport report = Check(new() { Loads = [new() { Number = "1", Mass = Mass.FromKilograms(500), HowKnown = MassKnownBy.Weighed }] });
        Assert.Equal(CheckVerdict.ToConfirm, report.Verdict);
        Assert.Null(report.MaxLoad);
        Assert.Null(report.Weakest);
        Assert.Equal(["rigging-missing", "rigging-attachment-missing"], report.Items.Select(i => i.Code));
    }

    [Fact]
    public void Check_MassesNotEntered_AreDefaultsThatAsk()
    {
        RiggingReport report = Check(Request(part: p => p with { Mass = null }));
        Assert.Equal(8, report.HangingMassKg, 1e-9);
        Assert.Contains("ring, line, remote hook, swivel", report.HangingMass.Note, StringComparison.Ordinal);
        Assert.Equal(4, report.HangingMass.Inputs.Count(i => i.From == InputFrom.Default));
        Assert.Equal(CheckVerdict.ToConfirm, Item(report, "rigging-mass-missing").Verdict);
    }

    [Fact]
    public void Check_Figures_HaveOneKeyEachAndInputsThatExist()
    {
        LiftRequest request = Request(part: p => p.Kind == PartKind.Ring ? p with { Name = "Swivel" } : p);
        string[] keys = [.. Check(request).Figures.Select(f => f.Key)];
        Assert.Equal(keys.Length, keys.Distinct().Count());
        Assert.Contains("rigging.7.swivel", keys);
        Assert.Contains("rigging.7.swivel-2", keys);
        Assert.Contains("rigging.7.remote-hook.limit", keys);
        Assert.All(Check(request).Figures.SelectMany(f => f.Inputs).Where(i => i.From == InputFrom.Figure), i => Assert.Contains(i.Where, keys));
        FigureInput counted = RiggingChecker.Check(request, 0, Mass.FromKilograms(1100), "load.7").Parts[0].StaticLoad.Inputs[0];
        Assert.Equal((InputFrom.Figure, "load.7"), (counted.From, counted.Where));
    }

    [Fact]
    public void Check_NoSuchLoadOrMass_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RiggingChecker.Check(Request(), 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => RiggingChecker.Check(Request(), 0, Mass.FromKilograms(0)));
    }

    private static RiggingReport Check(LiftRequest request) => RiggingChecker.Check(request, 0);

    private static CheckItem Item(RiggingReport report, string code) => Assert.Single(report.Everything, i => i.Code == code);

    private static double Kg(Figure figure) => (double)figure.Value.Quantity.As(MassUnit.Kilogram);

    private static double Percent(Figure figure) => (double)figure.Value.Quantity.As(RatioUnit.Percent);

    private static LiftRequest Request(
        Func<RiggingPart, RiggingPart>? part = null, Func<Attachment, Attachment>? attachment = null, Func<RiggingPart, RiggingPart>? sling = null,
        Func<PlannedLoad, PlannedLoad>? load = null, OperatorPolicy? policy = null)
    {
        RiggingPart[] parts =
        [
            Part("hook", PartKind.CargoHook, 1400, 6), Part("ring", PartKind.Ring, 2000, 2) with { FitsHookAbove = true }, Part("line", PartKind.Line, 1500, 22),
            Part("remote hook", PartKind.RemoteHook, 1200, 15), Part("swivel", PartKind.Swivel, 3000, 5),
        ];
        RiggingPart chain = Part("sling", PartKind.ChainSling, 800, 8);
        Attachment hangs = new() { Legs = 2, LegAngle = Angle.FromDegrees(60), Sling = sling is null ? chain : sling(chain) };
        PlannedLoad planned = new() { Number = "7", Mass = Mass.FromKilograms(1000), HowKnown = MassKnownBy.Weighed, Attachment = attachment is null ? hangs : attachment(hangs) };
        return new()
        {
            Date = Day,
            Rigging = part is null ? parts : [.. parts.Select(part)],
            Loads = [load is null ? planned : load(planned)],
            Policy = policy,
        };
    }

    private static RiggingPart Part(string name, PartKind kind, double ratedKg, double massKg) =>
        new() { Name = name, Kind = kind, RatedLoad = Mass.FromKilograms(ratedKg), Mass = Mass.FromKilograms(massKg), InspectionDue = new(2026, 12, 31) };
}
