using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Files.Jobs;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

public class LiftSetupTests
{
    [Fact]
    public void From_TheExampleOfTheDocument_GivesEveryFigure()
    {
        LiftSetup s = LiftSetup.From(JobExample.Read(JobExample.Text).Request);

        Assert.Equal((30, Origin.JobFile), (s.Line.Value.Meters, s.Line.From));
        Assert.Equal(3, s.Rigging.Value.Meters);
        Assert.Equal((780, Origin.JobFile), (s.Load.Value.Kilograms, s.Load.From));
        Assert.Equal(1.8, s.DragArea.Value.SquareMeters);
        Assert.Equal(34.2, s.ContactLengthM, 1e-9);
        Assert.Equal(33.6, s.SwingLengthM, 1e-9);
        // Closed form: 1240 kg equipped + 88 kg pilot + 430 kg / 2 of fuel; the signaller stays on the ground.
        Assert.Equal((1543, Origin.JobFile), (s.Aircraft.Value.Kilograms, s.Aircraft.From));
        Assert.Equal(240, s.Wind!.Value.Value.FromDeg);
        Assert.Equal([SiteUse.PickUp, SiteUse.Delivery], s.Sites.Select(x => x.Use));
        Assert.Equal(6420, s.Recon!.AltimeterReading.Feet, 1e-9);
        Assert.Equal((1018, 9), (Math.Round(s.Recon.QnhHPa, 9), Math.Round(s.Recon.TemperatureC!.Value, 9)));
        Assert.Equal(new DateTimeOffset(2026, 6, 1, 6, 40, 0, TimeSpan.Zero).ToUnixTimeSeconds(), s.Recon.TimeS);
        Assert.Single(s.People);
        // Closed form: 380 ft = 115.824 m, 40 kt = 20.57778 m/s, 500 ft/min = 2.54 m/s.
        PlanGate gate = Assert.Single(s.Gates);
        Assert.Equal(115.824, gate.HeightAboveTargetM, 1e-9);
        Assert.Equal(20.57778, gate.GroundSpeedMs, 1e-5);
        Assert.Equal(2.54, gate.SinkMs, 1e-9);
    }

    [Fact]
    public void From_NothingGiven_AssumesEverything()
    {
        LiftSetup s = LiftSetup.From(new());
        Assert.All([s.Line.From, s.Rigging.From, s.LoadHeight.From, s.Load.From, s.DragArea.From, s.Aircraft.From, s.AntennaAboveHook.From], from => Assert.Equal(Origin.Assumed, from));
        Assert.Null(s.Wind);
        Assert.Null(s.Recon);
    }

    [Fact]
    public void From_LoadListAlone_TakesTheMedianLoadWithItsHeight()
    {
        PlannedLoad Load(string number, double kg, double m) => new() { Number = number, Mass = Mass.FromKilograms(kg), HowKnown = MassKnownBy.Label, Height = Length.FromMeters(m) };
        LiftSetup s = LiftSetup.From(new() { Loads = [Load("1", 900, 3), Load("2", 300, 1), Load("3", 500, 2)] });
        Assert.Equal((500, 2), (s.Load.Value.Kilograms, s.LoadHeight.Value.Meters));
        Assert.Equal((Origin.JobFile, Origin.Assumed), (s.Load.From, s.DragArea.From));
    }

    [Fact]
    public void From_MassInFlight_StandsBeforeTheEquippedMass() =>
        Assert.Equal(1650, LiftSetup.From(new() { Aircraft = new() { Mass = Mass.FromKilograms(1650), EquippedMass = Mass.FromKilograms(1240) } }).Aircraft.Value.Kilograms);

    [Fact]
    public void From_NoWindOfItsOwn_TakesTheOneAtTheDelivery()
    {
        Site site = new()
        {
            Name = "path",
            Use = SiteUse.Delivery,
            Latitude = Angle.FromDegrees(46),
            Longitude = Angle.FromDegrees(8),
            Weather = new() { Qnh = Pressure.FromHectopascals(1013), Temperature = Temperature.FromDegreesCelsius(5), Wind = new() { From = Angle.FromDegrees(360), Speed = Speed.FromKnots(7) } },
        };
        LiftSetup s = LiftSetup.From(new() { Sites = [site] });
        Assert.Equal((0, 7), (s.Wind!.Value.Value.FromDeg, s.Wind.Value.Value.Speed.Knots));
    }
}
