namespace Stillhook.Planning.Payload;

/// <summary>What limits a load.</summary>
public enum LoadLimitedBy
{
    /// <summary>Hover mass out of ground effect.</summary>
    HoverMass,

    /// <summary>Power kept in hand.</summary>
    PowerMargin,

    /// <summary>External gross limit.</summary>
    ExternalGrossLimit,

    /// <summary>Rated load of the cargo hook.</summary>
    CargoHook,

    /// <summary>Weakest part between hook and load.</summary>
    Rigging,

    /// <summary>Can't be judged: outside the chart.</summary>
    NotJudged,
}

/// <summary>The most a load may weigh at one site, clock hour and fuel.</summary>
/// <param name="At">Site and hour.</param>
/// <param name="FuelKg">Fuel aboard at hook-on, kg.</param>
/// <param name="AllowedKg">Most for the load alone, kg, rounded down; 0 when nothing may be lifted or it can't be judged.</param>
/// <param name="LimitedBy">What set it.</param>
/// <param name="Figure">The working, or null when it can't be judged.</param>
public sealed record SitePayload(SiteHour At, double FuelKg, double AllowedKg, LoadLimitedBy LimitedBy, Figure? Figure);

/// <summary>The most a load may weigh on its way from pick-up to delivery: the worse site governs.</summary>
/// <param name="PickUp">At the pick-up.</param>
/// <param name="Delivery">At the delivery.</param>
public sealed record LoadPayload(SitePayload PickUp, SitePayload Delivery)
{
    /// <summary>The site that governs; the delivery when both are equal, because there is less choice there.</summary>
    public SitePayload Governing => PickUp.AllowedKg < Delivery.AllowedKg ? PickUp : Delivery;
}
