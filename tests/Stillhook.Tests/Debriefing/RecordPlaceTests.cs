using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

public class RecordPlaceTests
{
    private static readonly LiftRequest Here = new()
    {
        Job = "wall", Sites = [new() { Name = "yard", Use = SiteUse.PickUp, Latitude = Angle.FromDegrees(0), Longitude = Angle.FromDegrees(10) }, new() { Name = "wall", Use = SiteUse.Delivery, Latitude = Angle.FromDegrees(0), Longitude = Angle.FromDegrees(11) }],
    };

    // Closed form: on the equator a degree of longitude is 2π·6378.137 km/360 = 111.319 km of arc; the straight line through the earth is 0.5 % less at 10 degrees and 5 mm less at 0.1.
    [Theory]
    [InlineData(11.1, 11.1319)]
    [InlineData(12.0, 111.319)]
    [InlineData(9.0, 111.319)]
    public void NearestM_OnTheEquator_IsTheArcToTheNearestSite(double longitudeDeg, double km) =>
        Assert.Equal(km * 1000, RecordPlace.NearestM(At(0, longitudeDeg), Here)!.Value, km * 1000 * 1e-4);

    // Closed form: 0.44 degrees are 49.0 km, 0.46 are 51.2.
    [Theory]
    [InlineData(11.44, false)]
    [InlineData(11.46, true)]
    [InlineData(-120, true)]
    public void OtherJob_FartherThanFiftyKilometres_IsTold(double longitudeDeg, bool told) => Assert.Equal(told, RecordPlace.OtherJob(At(0, longitudeDeg), Here) is not null);

    [Fact]
    public void OtherJob_FlownInFromFarAway_IsThisJob() => Assert.Null(RecordPlace.OtherJob(At(0, [15, 14, 13, 12, 11.01, 12, 13]), Here));

    [Fact]
    public void NearestM_NoSitesOrNoPositions_IsUnknown()
    {
        Assert.Null(RecordPlace.NearestM(At(0, 10), new()));
        Assert.Null(RecordPlace.NearestM(At(0, []), Here));
    }

    private static FlightRecord At(double latitudeDeg, params double[] longitudesDeg) => new()
    {
        Name = "r", Format = "CSV", TimeS = [.. longitudesDeg.Select((_, i) => 1_750_000_000.0 + 60 * i)], LatitudeDeg = [.. longitudesDeg.Select(_ => latitudeDeg)], LongitudeDeg = longitudesDeg,
        AltitudeM = [.. longitudesDeg.Select(_ => 500.0)], SegmentStarts = [0],
    };
}
