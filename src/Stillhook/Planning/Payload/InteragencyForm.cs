namespace Stillhook.Planning.Payload;

/// <summary>One column of the interagency load calculation, kg.</summary>
/// <param name="Name">HIGE, HOGE or HOGE-J.</param>
/// <param name="ComputedKg">Gross mass from the chart.</param>
/// <param name="ReductionKg">Fixed weight reduction of the type.</param>
/// <param name="LimitKg">Certificated gross limit; the external one in the jettisonable column.</param>
/// <param name="SelectedKg">Lower of the chart mass after reduction and the limit.</param>
/// <param name="OperatingKg">Equipped mass, crew and fuel.</param>
/// <param name="AllowableKg">What may be carried, attaching means included; below zero is shown as it is.</param>
public sealed record InteragencyColumn(string Name, double ComputedKg, double ReductionKg, double LimitKg, double SelectedKg, double OperatingKg, double AllowableKg)
{
    /// <summary>The chart mass after the reduction, kg.</summary>
    public double AdjustedKg => ComputedKg - ReductionKg;
}

/// <summary>The interagency load calculation with its columns for landing sites in and out of ground effect and for jettisonable external loads.</summary>
/// <remarks>
/// [NWCG-PMS-510]; the steps are from memory, the form itself was not read: operating = equipped + crew + fuel; adjusted = chart − reduction;
/// selected = lower of adjusted and limit; allowable = selected − operating. The reduction is obligatory for the two landing columns and optional for
/// jettisonable loads by agreement of pilot and manager. Long-line work uses the last column only.
/// </remarks>
/// <param name="Columns">HIGE and HOGE where their chart or limit was entered, and HOGE-J.</param>
public sealed record InteragencyForm(IReadOnlyList<InteragencyColumn> Columns)
{
    /// <summary>One column.</summary>
    /// <param name="name">HIGE, HOGE or HOGE-J.</param>
    /// <param name="chartKg">Gross mass from the chart at the more demanding site, kg.</param>
    /// <param name="reductionKg">Weight reduction taken in this column, kg.</param>
    /// <param name="limitKg">Gross limit of this column, kg.</param>
    /// <param name="operatingKg">Equipped mass, crew and fuel, kg.</param>
    public static InteragencyColumn Column(string name, double chartKg, double reductionKg, double limitKg, double operatingKg)
    {
        double selected = Math.Min(chartKg - reductionKg, limitKg);
        return new(name, chartKg, reductionKg, limitKg, selected, operatingKg, selected - operatingKg);
    }

    /// <summary>The form at the more demanding of the sites.</summary>
    /// <param name="aircraft">Aircraft with its charts.</param>
    /// <param name="worst">Site and hour with the least gross mass.</param>
    /// <param name="operatingWithFuelKg">Equipped mass, crew and fuel, kg.</param>
    /// <param name="reduceJettisonable">The reduction is taken in the jettisonable column too.</param>
    public static InteragencyForm At(Aircraft aircraft, SiteHour worst, double operatingWithFuelKg, bool reduceJettisonable)
    {
        ArgumentNullException.ThrowIfNull(aircraft);
        ArgumentNullException.ThrowIfNull(worst);
        double reduction = aircraft.WeightReduction?.Kilograms ?? 0;
        List<InteragencyColumn> columns = [];
        if (aircraft.GrossLimit?.Kilograms is { } grossLimit)
        {
            if (aircraft.HoverInGroundEffect is { } inGroundEffect
                && ChartTable.From(inGroundEffect).At(worst.PressureAltitudeM, worst.TemperatureC) is { IsGiven: true } hige)
                columns.Add(Column("HIGE", hige.Value, reduction, grossLimit, operatingWithFuelKg));
            columns.Add(Column("HOGE", worst.HoverMassKg, reduction, grossLimit, operatingWithFuelKg));
        }
        columns.Add(Column("HOGE-J", worst.HoverMassKg, reduceJettisonable ? reduction : 0, aircraft.ExternalGrossLimit!.Value.Kilograms, operatingWithFuelKg));
        return new(columns);
    }
}
