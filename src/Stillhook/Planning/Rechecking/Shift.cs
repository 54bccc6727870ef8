using Stillhook.Debriefing;

namespace Stillhook.Planning.Rechecking;

/// <summary>What the crew reads off since the plan was made. Whatever is null has not been read again and stands as planned.</summary>
public sealed record Shift
{
    /// <summary>Outside air temperature, °C, at <see cref="ReadAt"/>.</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Name of the site where the temperature was read; the first pick-up when null.</summary>
    public string? ReadAt { get; init; }

    /// <summary>Altimeter setting, Pa.</summary>
    public double? QnhPa { get; init; }

    /// <summary>Wind.</summary>
    public Wind? Wind { get; init; }

    /// <summary>Local clock minute of the reading; the planned start when null.</summary>
    public double? Minute { get; init; }

    /// <summary>Fuel aboard now, kg.</summary>
    public double? FuelKg { get; init; }

    /// <summary>Numbers of loads already delivered.</summary>
    public IReadOnlyList<string> Delivered { get; init; } = [];

    /// <summary>True when nothing has been read again.</summary>
    public bool IsEmpty => TemperatureC is null && QnhPa is null && Wind is null && FuelKg is null && Minute is null && Delivered.Count == 0;
}
