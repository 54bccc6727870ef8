using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

/// <summary>What comes of a job that lacks something, forbids everything or asks for the impossible: one clear sentence, never an exception.</summary>
public class ApproachPlannerTests
{
    private const double Knot = ApproachJobs.Knot;

    private static ApproachPlan Refused(LiftRequest job, ApproachOptions? options = null)
    {
        ApproachPlan plan = ApproachJobs.Plan(job, options);
        Assert.False(plan.IsOffered);
        Assert.Empty(plan.Gates);
        Assert.False(string.IsNullOrWhiteSpace(plan.Refused), "no sentence: " + ApproachJobs.Said(plan));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        return plan;
    }

    private static ApproachPlan Offered(LiftRequest job, ApproachOptions? options = null)
    {
        ApproachPlan plan = ApproachJobs.Plan(job, options);
        Assert.True(plan.IsOffered, ApproachJobs.Said(plan));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        return plan;
    }

    private static void Finding(LiftRequest job, string path, ApproachOptions? options = null)
    {
        ApproachPlan plan = ApproachJobs.Plan(job, options);
        Assert.False(plan.IsOffered);
        Assert.Single(plan.Findings, f => f.Severity == Stillhook.Recording.Severity.Error && f.Path.StartsWith(path, StringComparison.Ordinal));
        Assert.Empty(ApproachJobs.NotFinite(plan));
    }

    [Fact]
    public void Plan_PlainJob_OffersAWayIntoWind()
    {
        ApproachPlan plan = Offered(ApproachJobs.Job());
        Assert.InRange(WaySearch.Apart(plan.CourseDeg, 0), 0, 40);
        Assert.NotNull(plan.PowerIn);
        Assert.NotNull(plan.Reject);
    }

    [Fact]
    public void Plan_NoWind_IsOfferedAndSaysSo() =>
        Assert.Contains(Offered(ApproachJobs.Job(ApproachJobs.Delivery())).Checks, c => c.Code == "no-wind");

    [Fact]
    public void Plan_NoDeliverySite_IsOneFinding() =>
        Finding(ApproachJobs.Job() with { Sites = [ApproachJobs.PickUp()], Loads = [Jobs.Load("1", 600)] }, "sites");

    [Fact]
    public void Plan_NoElevation_IsOneFinding() => Finding(ApproachJobs.Job().WithSpot(s => s with { Elevation = null }), "sites[1].elevation");

    [Fact]
    public void Plan_NoLine_IsOneFinding() => Finding(ApproachJobs.Job() with { Line = null }, "line");

    // The same fault is said once: a line without a length is a warning of the job and an error of the approach.
    [Fact]
    public void Plan_LineWithoutLength_IsOneError() => Finding(ApproachJobs.Job() with { Line = new() }, "line");

    [Fact]
    public void Plan_NoLoad_IsOneFinding() => Finding(ApproachJobs.Job() with { Loads = [] }, "loads");

    [Fact]
    public void Plan_UnknownSiteOrLoad_IsOneFinding()
    {
        Finding(ApproachJobs.Job(), "sites", ApproachJobs.Quick with { Site = "nowhere" });
        Finding(ApproachJobs.Job(), "loads", ApproachJobs.Quick with { Load = "99" });
    }

    [Fact]
    public void Plan_LoadThatGoesElsewhere_IsOneFinding()
    {
        LiftRequest job = TwoSites();
        Finding(job, "loads", ApproachJobs.Quick with { Load = "1", Site = "high" });
    }

    private static LiftRequest TwoSites(double hoverLow = 3600, double hoverHigh = 2700)
    {
        HoverChart chart = new()
        {
            Source = "invented page",
            PressureAltitude = [Length.FromMeters(0), Length.FromMeters(3000)],
            Temperature = [Jobs.C(-30), Jobs.C(45)],
            Mass = [[Jobs.Kg(hoverLow), Jobs.Kg(hoverLow)], [Jobs.Kg(hoverHigh), Jobs.Kg(hoverHigh)]],
        };
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 8)));
        Site high = ApproachJobs.Delivery(2800, ApproachJobs.Wind(90, 8), -2) with { Name = "high", Latitude = ApproachJobs.Spot(0, 900).Latitude };
        return job with
        {
            Aircraft = job.Aircraft! with { HoverOutOfGroundEffect = chart },
            Sites = [.. job.Sites, high],
            Loads = [job.Loads[0] with { Delivery = "spot" }, job.Loads[0] with { Number = "2", Mass = Jobs.Kg(500), Delivery = "high" }],
        };
    }

    [Fact]
    public void Plan_TwoDeliverySites_EachByItsOwnAirAndPower()
    {
        ApproachPlan low = Offered(TwoSites(), ApproachJobs.Quick with { Site = "spot" }), high = Offered(TwoSites(), ApproachJobs.Quick with { Site = "high" });
        Assert.Equal("load 1", low.Situation!.LoadName);
        Assert.Equal("load 2", high.Situation!.LoadName);
        Assert.InRange(WaySearch.Apart(low.CourseDeg, 0), 0, 90);
        Assert.InRange(WaySearch.Apart(high.CourseDeg, 90), 0, 90);
        Assert.Equal(2800, high.Situation.ElevationM, 1e-9);
        Assert.True(high.Situation.Hover!.Value < low.Situation.Hover!.Value, $"{high.Situation.Hover.Value:0.000} at 2 800 m, {low.Situation.Hover.Value:0.000} at 500 m");
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(-5.0)]
    [InlineData(double.NaN)]
    public void Plan_MassThatCannotBe_IsRefusedInWords(double kg)
    {
        Mass mass;
        try
        {
            mass = Mass.FromKilograms(kg);
        }
        catch (ArgumentException)
        {
            return; // no such quantity: it can't get here
        }
        LiftRequest job = ApproachJobs.Job();
        ApproachPlan plan = ApproachPlanner.Plan(job with { Loads = [job.Loads[0] with { Mass = mass }], Rigging = [] }, null, ApproachJobs.Quick);
        Assert.False(plan.IsOffered, "offered for " + kg);
        Assert.Empty(ApproachJobs.NotFinite(plan));
        Assert.True(plan.Refused is { Length: > 10 } || plan.Findings.Any(f => f.Severity == Stillhook.Recording.Severity.Error));
    }

    [Fact]
    public void Plan_HugeMass_IsNotOffered() => Assert.False(ApproachJobs.Plan(ApproachJobs.Job(loadKg: 1e9)).IsOffered);

    // No rigging either: nothing at all hangs there.
    [Fact]
    public void Plan_NothingOnTheLine_IsRefusedInWords()
    {
        LiftRequest job = ApproachJobs.Job() with { Rigging = [], Loads = [], Load = new() { Mass = Mass.Zero } };
        ApproachPlan plan = ApproachPlanner.Plan(job, null, ApproachJobs.Quick);
        Assert.False(plan.IsOffered);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(150)]
    public void Plan_ShortestAndLongestLine_IsOfferedOrRefusedInWords(double lineM)
    {
        ApproachPlan plan = ApproachJobs.Plan(ApproachJobs.Job(lineM: lineM));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        Assert.True(plan.IsOffered || plan.Refused is { Length: > 10 });
    }

    [Fact]
    public void Plan_SpotInsideAnObstacle_IsRefusedByItsName()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(1, 2, 12, "larch")] }));
        Assert.Contains("larch", plan.Refused!);
        Assert.NotEmpty(plan.Remedies);
    }

    // Closed form: hook 31 m up + 15 kg of rigging without length = line 30 + load 1; tree 40 m + 5 m kept: 14 m longer.
    [Fact]
    public void Plan_TreeTallerThanTheLineBesideTheSpot_SaysHowMuchLonger()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(0, 11, 40, "larch")] }));
        Assert.Contains("larch", plan.Refused!);
        Assert.Contains("40 m", plan.Refused!);
        Assert.Equal(["a line at least 14 m longer"], plan.Remedies);
    }

    // The remedy is true: with that line the hook is clear of the tree over the spot.
    [Fact]
    public void Plan_TreeBesideTheSpotAndTheLongerLine_IsNoLongerRefusedForIt() =>
        Assert.DoesNotContain("too short", ApproachJobs.Plan(ApproachJobs.Job(lineM: 44).WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(0, 11, 40, "larch")] })).Refused ?? "");

    // Between the distance kept and 5 m more no way in can be flown at all, whatever the tree's height: the reason must be said as it is, with something to do about it.
    [Fact]
    public void Plan_TreeEightMetresFromTheSpot_HasARemedy()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(0, 8, 6, "larch")] }));
        Assert.Contains("larch", plan.Refused!);
        Assert.NotEmpty(plan.Remedies);
    }

    [Fact]
    public void Plan_WiresOfUnknownHeightAllRound_IsRefusedByAWire()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithSpot(s => s with
        {
            Wires = [ApproachJobs.Wire(-60, -60, 60, -60, null), ApproachJobs.Wire(60, -60, 60, 60, null, "line 2"), ApproachJobs.Wire(60, 60, -60, 60, null, "line 3"), ApproachJobs.Wire(-60, 60, -60, -60, null, "line 4")],
        }));
        Assert.Contains("height", plan.Refused!);
        Assert.All(plan.Sectors, x => Assert.False(x.Allowed));
        Assert.NotEmpty(plan.Remedies);
    }

    [Fact]
    public void Plan_CoursePinnedDownwind_IsRefusedWithTheWindAndARemedy()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithApproach(a => a with { Course = Angle.FromDegrees(180) }));
        Assert.Contains("downwind by 8 kt", plan.Refused!);
        Assert.NotEmpty(plan.Remedies);
    }

    [Fact]
    public void Plan_ChartThatDoesNotCoverTheSite_IsOfferedWithoutPowerGates()
    {
        HoverChart low = Jobs.FlatChart(3600) with { PressureAltitude = [Length.FromFeet(-1000), Length.FromFeet(1000)] };
        LiftRequest job = ApproachJobs.Job();
        ApproachPlan plan = ApproachJobs.Plan(job with { Aircraft = job.Aircraft! with { HoverOutOfGroundEffect = low } }, ApproachJobs.Quick with { Load = "1" });
        Assert.True(plan.IsOffered, ApproachJobs.Said(plan));
        Assert.Contains(plan.Checks, c => c.Code == "power-not-judged");
        Assert.Null(plan.PowerIn);
        Assert.Null(plan.Reject);
        Assert.Empty(ApproachJobs.NotFinite(plan));
    }

    // Without naming a load the answer is the same: the load has a mass, and to ask for one misleads.
    [Fact]
    public void Plan_ChartThatDoesNotCoverTheSiteAndNoLoadNamed_DoesNotAskForAMass()
    {
        HoverChart low = Jobs.FlatChart(3600) with { PressureAltitude = [Length.FromFeet(-1000), Length.FromFeet(1000)] };
        LiftRequest job = ApproachJobs.Job();
        ApproachPlan plan = ApproachJobs.Plan(job with { Aircraft = job.Aircraft! with { HoverOutOfGroundEffect = low } });
        Assert.DoesNotContain(plan.Findings, f => f.What.Contains("a load with its mass", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_HoverImpossible_IsRefusedWithTheLackOfPower()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job(hoverKg: 2000), ApproachJobs.Quick with { Load = "1" });
        Assert.Contains("No hover out of ground effect", plan.Refused!);
        Assert.NotEmpty(plan.Remedies);
    }

    [Fact]
    public void Plan_NoLoadLifts_SaysThatNoneLifts()
    {
        ApproachPlan plan = ApproachJobs.Plan(ApproachJobs.Job(hoverKg: 2000));
        Assert.False(plan.IsOffered);
        Assert.DoesNotContain(plan.Findings, f => f.What.Contains("a load with its mass", StringComparison.Ordinal));
    }

    // Closed form: v²/2d with v 20.58 m/s: 0.05 g needs 432 m at the very least; 100 m are pinned.
    [Fact]
    public void Plan_PinnedStartTooShort_SaysNumbersAndOffersSlowerOrFarther()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 0))).WithApproach(a => a with { Start = Length.FromMeters(220), SlowDownLimit = Ratio.FromPercent(5) }));
        Assert.Contains("40 kt", plan.Refused!);
        Assert.Contains("0.05 g", plan.Refused!);
        Assert.Contains("220 m", plan.Refused!);
        Assert.Contains(plan.Remedies, r => r.Contains("kt of air speed at the start mark", StringComparison.Ordinal));
        Assert.Contains(plan.Remedies, r => r.Contains("a start mark ", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_PinnedGlideSteeperThanAllowed_SaysBothAngles()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithApproach(a => a with { Glide = Angle.FromDegrees(20) }));
        Assert.Contains("20.0°", plan.Refused!);
        Assert.Contains("12°", plan.Refused!);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(4.9)]
    public void Plan_SteepestPathUnderFiveDegrees_IsNotRefusedForTheSlowDown(double deg)
    {
        ApproachPlan plan = ApproachJobs.Plan(ApproachJobs.Job().WithApproach(a => a with { SteepestGlide = Angle.FromDegrees(deg) }));
        Assert.True(plan.IsOffered, ApproachJobs.Said(plan));
    }

    [Fact]
    public void Plan_StrongCrosswindOnAPinnedCourse_IsRefusedWithNumbers()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(90, 22))).WithApproach(a => a with { Course = Angle.FromDegrees(0) }));
        Assert.Contains("22 kt from the side", plan.Refused!);
        Assert.Contains("15 kt", plan.Refused!);
    }

    [Fact]
    public void Plan_RefusedInTwentyKnots_DoesNotThrow() =>
        Refused(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 22))).WithApproach(a => a with { Course = Angle.FromDegrees(0), Glide = Angle.FromDegrees(20) }));

    [Fact]
    public void Plan_WindFasterThanTheApproach_IsRefusedInWords() =>
        Refused(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 60))));

    [Fact]
    public void Plan_PersonOnTheSpot_IsRefusedForPeople()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job().WithSpot(s => s with { People = [ApproachJobs.Spot(0, 0, "receiver")] }));
        Assert.Contains("receiver", plan.Refused!);
    }

    // More distance asked for never brings the load nearer: who stands 40 m from the spot is kept clear by as much as was asked for, or no way is offered.
    [Theory]
    [InlineData(10)]
    [InlineData(30)]
    [InlineData(45)]
    public void Plan_MorePeopleClearance_NeverPassesThemCloser(double clearanceM)
    {
        LiftRequest job = ApproachJobs.Job().WithSpot(s => s with { People = [ApproachJobs.Spot(12, -40, "receiver")] })
            .WithApproach(a => a with { Course = Angle.FromDegrees(0), PeopleClearance = Length.FromMeters(clearanceM) });
        ApproachPlan plan = ApproachJobs.Plan(job);
        if (plan.IsOffered)
        {
            double nearest = plan.Way!.Path.Load.Take(plan.Way.Path.StopIndex).Min(p => Math.Sqrt(Math.Pow(p.East + 40, 2) + Math.Pow(p.North - 12, 2)));
            Assert.True(nearest >= clearanceM, $"{nearest:0.0} m from a person with {clearanceM} m asked for");
        }
    }

    // Before the spot, under the way in and near it, a person is not the receiver: the load comes over at a few metres.
    [Fact]
    public void Plan_PersonUnderTheLastMetres_IsKeptClear()
    {
        LiftRequest job = ApproachJobs.Job().WithSpot(s => s with { People = [ApproachJobs.Spot(3.5, -11, "onlooker")] }).WithApproach(a => a with { Course = Angle.FromDegrees(0) });
        ApproachPlan plan = ApproachJobs.Plan(job);
        Assert.True(!plan.IsOffered || plan.Checks.Any(c => c.Text.Contains("onlooker", StringComparison.Ordinal)), "offered without a word");
    }

    [Fact]
    public void Plan_Gusts_AreTakenIntoTheFlights()
    {
        ApproachPlan calm = Offered(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 10, 10)))), gusty = Offered(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 10, 25))));
        Assert.Equal(0, calm.Situation!.GustMs, 1e-9);
        Assert.Equal(15 * Knot, gusty.Situation!.GustMs, 1e-6);
        Assert.True(gusty.Robustness!.WorstTenthM > calm.Robustness!.WorstTenthM);
    }

    [Fact]
    public void Plan_NoPickUp_IsOffered()
    {
        LiftRequest job = ApproachJobs.Job();
        ApproachPlan plan = Offered(job with { Sites = [job.Sites[1]] });
        Assert.Null(plan.Situation!.Direct);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(20)]
    public void Plan_PickUpBesideTheSpot_IsRefusedInFiniteWordsOrOffered(double distanceM)
    {
        ApproachPlan plan = ApproachJobs.Plan(ApproachJobs.Job(pickUp: ApproachJobs.PickUp(180, distanceM)));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        Assert.True(plan.IsOffered || plan.Refused is { Length: > 10 });
    }

    // The grid ends 100 m from the spot: no way leads over unknown ground, and it is said which.
    [Fact]
    public void Plan_GridThatEnds_IsRefusedForUnknownGround()
    {
        ApproachPlan plan = Refused(ApproachJobs.Job(), ApproachJobs.Quick with { Ground = (latitude, longitude) => Math.Abs(latitude - 46.9) < 0.0009 && Math.Abs(longitude - 10.1) < 0.0013 ? 700 : null });
        Assert.Contains("does not know the ground", plan.Refused!);
    }

    // A wall of 100 m that begins 50 m beyond the spot to the north: the reject gate of a way north comes earlier than over flat ground, or turns, or is not there.
    [Fact]
    public void Plan_GroundThatRisesBehindTheSpot_RejectsEarlierOrTurns()
    {
        LiftRequest job = ApproachJobs.Job().WithApproach(a => a with { Course = Angle.FromDegrees(0) });
        ApproachPlan flat = Offered(job, ApproachJobs.Quick with { Ground = (_, _) => 700 });
        ApproachPlan wall = Offered(job, ApproachJobs.Quick with { Ground = (latitude, _) => latitude > 46.9 + 50 / 111_200.0 ? 800 : 700 });
        Assert.NotNull(flat.Reject);
        Assert.True(wall.Reject is null ? wall.Checks.Any(c => c.Code == "no-way-out") : wall.Reject.DistanceM > flat.Reject.DistanceM + 20 || wall.Reject.TurnDeg != 0);
    }

    // Published: the mark card. Drop 2 100 ft, line 100 ft and load 10 ft, 0.5 NM, 8 degrees, 40 kt.
    // Closed form: 2 100 + 110 = 2 210, next mark 2 220; 0.5 NM x tan 8° = 427 ft, 2 637, next mark 2 640; 101.27 x 40 x tan 8° = 569 ft/min, nearest 50 is 550.
    private static LiftRequest MarkCard(WindGiven? wind)
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(2100 * 0.3048, wind, 15 - 0.0065 * 2100 * 0.3048));
        return job with
        {
            Line = new() { Length = Length.FromFeet(100) },
            Loads = [job.Loads[0] with { Height = Length.FromFeet(10) }],
            Approach = new() { Start = Length.FromMeters(926), Glide = Angle.FromDegrees(8), EntrySpeed = Speed.FromKnots(40) },
        };
    }

    [Fact]
    public void Plan_MarkCardInCalmAir_GivesTheCardsMarks()
    {
        ApproachPlan plan = Offered(MarkCard(ApproachJobs.Wind(0, 0)));
        Assert.Equal(2220, plan.Gates[^1].AltimeterFt);
        ApproachGate start = plan.Gates[0];
        Assert.Equal(926, start.DistanceM, 1e-6);
        Assert.Equal(2640, start.AltimeterFt);
        Assert.Equal(550, start.SinkFtPerMin);
        Assert.Equal(569, start.SinkMs / 0.3048 * 60, 6.0);
        Assert.Equal(40, start.AirKt);
        Assert.All(plan.Gates, g => Assert.Equal(0, g.TemperatureFt, 0.05));
        // Pinned, own computation: from where going around keeps the load clear; hover mass 3 600 kg, 2 265 kg or so flown.
        ApproachGate reject = plan.Gate(ApproachGates.RejectName)!;
        Assert.Equal((50.0, 2240.0), (reject.DistanceM, reject.AltimeterFt));
    }

    [Fact]
    public void Plan_MarkCardTwice_IsTheSameText()
    {
        ApproachPlan a = ApproachJobs.Plan(MarkCard(ApproachJobs.Wind(0, 0))), b = ApproachJobs.Plan(MarkCard(ApproachJobs.Wind(0, 0)));
        Assert.NotEmpty(a.Gates);
        Assert.Equal(string.Join("\n", a.Gates), string.Join("\n", b.Gates));
        Assert.Equal(string.Join("\n", a.Checks), string.Join("\n", b.Checks));
    }

    // The same card where nobody gave the wind.
    [Fact]
    public void Plan_MarkCardWithoutWind_IsOfferedOrSaysWhichSink()
    {
        ApproachPlan plan = ApproachJobs.Plan(MarkCard(null));
        if (plan.IsOffered)
            Assert.Equal(2640, plan.Gates[0].AltimeterFt);
        else
        {
            Assert.Contains("sinking", plan.Refused!);
            Assert.NotEmpty(plan.Remedies);
        }
    }

    private static LiftRequest Torque(double percent, double? marginPercent)
    {
        // Gross mass over the spot: 1 420 kg with the pilot, 200 kg of fuel, 45 kg of kit, 600 kg of load.
        const double gross = 2265;
        Ratio? less = Ratio.FromPercent(percent - 7), more = Ratio.FromPercent(percent + 7);
        IReadOnlyList<IReadOnlyList<Ratio?>> page = [[less, more], [less, more]];
        LiftRequest job = ApproachJobs.Job(hoverKg: 6000);
        return job with
        {
            Aircraft = job.Aircraft! with
            {
                TorqueLimit = Ratio.FromPercent(100),
                HoverTorque = new() { Source = "invented page", PressureAltitude = [Length.FromFeet(-1000), Length.FromFeet(10_000)], Temperature = [Jobs.C(-20), Jobs.C(45)], Mass = [Jobs.Kg(gross - 1000), Jobs.Kg(gross + 1000)], Torque = [page, page] },
            },
            Day = job.Day! with { StartFuel = Jobs.Kg(200) },
            Policy = marginPercent is { } m ? new() { PowerMargin = Ratio.FromPercent(m) } : null,
        };
    }

    // Closed form: 100 − 92 = 8 % of the limit left.
    [Fact]
    public void Plan_HoverTorque92Of100_PlansAReject()
    {
        ApproachPlan plan = ApproachJobs.Plan(Torque(92, null), ApproachJobs.Quick with { Load = "1" });
        Assert.True(plan.Checks.Any(c => c.Text == "Less than 10 % left over the spot (8 %): plan a reject."), ApproachJobs.Said(plan) + plan.Situation?.Hover);
        Assert.DoesNotContain(plan.Checks, c => c.Code == "not-lifted");
    }

    // With a margin of the operator's the lift plan lifts no load with less: named or not, the approach of the only one there is says so and why.
    [Theory]
    [InlineData("1")]
    [InlineData(null)]
    public void Plan_HoverTorque92Of100WithTenToKeep_SaysThatTheLoadIsNotLifted(string? load)
    {
        ApproachPlan plan = ApproachJobs.Plan(Torque(92, 10), ApproachJobs.Quick with { Load = load });
        Assert.Contains(plan.Checks, c => c.Code == "reject-planned");
        CheckItem not = Assert.Single(plan.Checks, c => c.Code == "not-lifted");
        Assert.Equal(CheckVerdict.Fails, not.Verdict);
        Assert.True(not.Text.Length > 120, not.Text);
    }

    [Fact]
    public void Plan_HoverTorque85Of100_AsksForNoReject() =>
        Assert.DoesNotContain(ApproachJobs.Plan(Torque(85, 10)).Checks, c => c.Code == "reject-planned");

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Plan_NoneOrOneFlight_DoesNotThrow(int flights) =>
        Assert.Empty(ApproachJobs.NotFinite(ApproachJobs.Plan(ApproachJobs.Job(), new() { Flights = flights })));

    // The path starts over the let-down height, or it is said why not: a load does not climb towards the spot.
    [Fact]
    public void Plan_LetDownHigherThanTheStart_NeverClimbs()
    {
        ApproachPlan plan = ApproachJobs.Plan(ApproachJobs.Job().WithApproach(a => a with { LetDown = Length.FromMeters(15), Start = Length.FromMeters(150), Glide = Angle.FromDegrees(3), EntrySpeed = Speed.FromKnots(20) }));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        if (plan.IsOffered)
        {
            double[] h = plan.Way!.Path.LoadHeightM;
            Assert.True(Enumerable.Range(1, h.Length - 1).All(i => h[i] <= h[i - 1] + 1e-3), "climbs");
            Assert.InRange(h[0], 14, 100);
            Assert.Equal(plan.Way.Path.Shape.StartHeightM, h[0], 1.0);
        }
    }

    [Fact]
    public void Plan_ExampleJob_IsOffered()
    {
        LiftRequest job = Stillhook.Files.Jobs.JobFile.Read(File.OpenRead(Repository.File("examples/path-repair.json"))).Request!;
        ApproachPlan plan = ApproachJobs.Plan(job);
        Assert.True(plan.IsOffered, ApproachJobs.Said(plan));
        Assert.Empty(ApproachJobs.NotFinite(plan));
        Assert.True(plan.PowerIn is not null && plan.Gates.Count >= 4);
    }
    // Closed form: the nose stands off the way by the wind across over the air speed, which is the ground speed at the start mark and the wind from ahead.
    [Theory]
    [InlineData(PilotSide.Right, "spot-in-sight")]
    [InlineData(PilotSide.Left, "spot-behind-nose")]
    public void Checks_WindFromAheadAndLeft_TurnsTheNoseByItsDrift(PilotSide side, string code)
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(315, 14))).WithApproach(a => a with { Course = Angle.FromDegrees(0) });
        ApproachPlan plan = ApproachJobs.Plan(job with { Aircraft = job.Aircraft! with { PilotSide = side } });
        double each = 14 * Math.Sqrt(0.5) * ApproachJobs.Knot, drift = double.RadiansToDegrees(Math.Atan2(each, plan.Way!.Path.Shape.EntryMs + each));
        Assert.Equal(0, plan.CourseDeg, 1e-9);
        double shown = side == PilotSide.Right ? Math.Round(drift / 5) * 5 : Math.Round(drift);
        Assert.Contains($" {shown}°", Assert.Single(plan.Checks, c => c.Code == code).Text, StringComparison.Ordinal);
    }

}
