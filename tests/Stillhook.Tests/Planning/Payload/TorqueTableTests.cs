using CsCheck;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Tests.Planning.Payload;

public class TorqueTableTests
{
    private static Ratio?[] Row(params double?[] percent) => [.. percent.Select(p => p is { } v ? Ratio.FromPercent(v) : (Ratio?)null)];

    // Two altitudes, one temperature pair, three masses; the heaviest mass has no value at the upper altitude.
    private static TorqueTable Table() => new(new()
    {
        Source = "invented page",
        PressureAltitude = [Length.FromFeet(0), Length.FromFeet(4000)],
        Temperature = [Temperature.FromDegreesCelsius(0), Temperature.FromDegreesCelsius(20)],
        Mass = [Mass.FromKilograms(1600), Mass.FromKilograms(2000), Mass.FromKilograms(2400)],
        Torque = [[Row(60, 76, 95), Row(62, 80, 99)], [Row(62, 80, null), Row(64, 84, null)]],
    });

    // Closed form: at 0 ft and 10 °C 1600 kg needs 61, 2000 kg 78, 2400 kg 97; half way between the last two 87.5.
    [Fact]
    public void Torque_BetweenMasses_IsLinear() => Assert.Equal(87.5, Table().Torque(2200, 0, 10).Value, 1e-9);

    [Fact]
    public void MassAt_TheTorqueOfAMass_IsThatMass() => Gen.Select(Gen.Double[1600, 2400], Gen.Double[0, 20]).Sample((mass, celsius) =>
        Assert.Equal(mass, Table().MassAt(Table().Torque(mass, 0, celsius).Value, 0, celsius).Value, 1e-6));

    // The page ends at 2 000 kg there: the mass is not extended past what is printed although 95 % would carry more.
    [Fact]
    public void MassAt_BeyondThePage_StopsAtTheLastPrintedMass() => Assert.Equal(2000, Table().MassAt(95, Length.FromFeet(4000).Meters, 10).Value, 1e-9);

    [Fact]
    public void MassAt_LessThanTheLightestNeeds_IsRefused() => Assert.Contains("already needs 61", Table().MassAt(50, 0, 10).Refused, StringComparison.Ordinal);

    [Theory]
    [InlineData(1500, 0, 10)]
    [InlineData(2500, 0, 10)]
    [InlineData(2200, 2000, 10)]
    [InlineData(2000, 0, 30)]
    public void Torque_OutsideThePage_IsRefused(double mass, double feet, double celsius) => Assert.False(Table().Torque(mass, Length.FromFeet(feet).Meters, celsius).IsGiven);
}
