namespace Stillhook.Planning.Payload;

/// <summary>A hover torque page: the torque to hover out of ground effect over pressure altitude, temperature and gross mass.</summary>
public sealed class TorqueTable
{
    private readonly double[] massesKg;
    private readonly ChartTable[] byMass;

    /// <summary>The table of a torque chart, %.</summary>
    public TorqueTable(TorqueChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        massesKg = [.. chart.Mass.Select(m => m.Kilograms)];
        byMass = [.. massesKg.Select((_, m) => new ChartTable(chart.PressureAltitude, chart.Temperature, (row, column) => chart.Torque[row][column][m]?.Percent))];
    }

    /// <summary>Torque, %, to hover a gross mass (kg): linear between the printed masses; refused outside them.</summary>
    public ChartReading Torque(double massKg, double pressureAltitudeM, double temperatureC)
    {
        if (!(massKg >= massesKg[0] && massKg <= massesKg[^1]))
            return new(double.NaN, FormattableString.Invariant($"{massKg:0} kg is outside the torque chart's {massesKg[0]:0} to {massesKg[^1]:0} kg"), []);
        int above = Array.FindIndex(massesKg, m => m >= massKg);
        ChartReading high = byMass[above].At(pressureAltitudeM, temperatureC);
        if (massesKg[above] == massKg || !high.IsGiven)
            return high;
        ChartReading low = byMass[above - 1].At(pressureAltitudeM, temperatureC);
        if (!low.IsGiven)
            return low;
        double share = (massKg - massesKg[above - 1]) / (massesKg[above] - massesKg[above - 1]);
        return new(low.Value + share * (high.Value - low.Value), "", [.. low.Corners, .. high.Corners]);
    }

    /// <summary>The gross mass, kg, that hovers with a torque (%): linear between the printed masses; the largest printed mass when even that needs less.</summary>
    public ChartReading MassAt(double torquePercent, double pressureAltitudeM, double temperatureC)
    {
        double lastMass = double.NaN, lastTorque = double.NaN;
        string refused = "";
        for (int m = 0; m < massesKg.Length; m++)
        {
            ChartReading at = byMass[m].At(pressureAltitudeM, temperatureC);
            if (!at.IsGiven)
            {
                refused = at.Refused;
                break;
            }
            if (at.Value > torquePercent)
                return double.IsNaN(lastMass)
                    ? new(double.NaN, FormattableString.Invariant($"the lightest mass of the torque chart, {massesKg[0]:0} kg, already needs {at.Value:0} %"), [])
                    : new(lastMass + (massesKg[m] - lastMass) * (torquePercent - lastTorque) / (at.Value - lastTorque), "", at.Corners);
            (lastMass, lastTorque) = (massesKg[m], at.Value);
        }
        return double.IsNaN(lastMass) ? new(double.NaN, refused, []) : new(lastMass, "", []);
    }
}
