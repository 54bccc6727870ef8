namespace Stillhook.Files.Records.Csv;

/// <summary>What a column of a table may hold. Values become SI by the column's scale.</summary>
public enum CsvMeaning
{
    /// <summary>Not used.</summary>
    Ignored,

    /// <summary>Date and time, or a time of day when there is a date column, or a number of seconds.</summary>
    Time,

    /// <summary>Date alone.</summary>
    Date,

    /// <summary>Latitude, degrees.</summary>
    Latitude,

    /// <summary>Longitude, degrees.</summary>
    Longitude,

    /// <summary>Satellite altitude, m.</summary>
    Altitude,

    /// <summary>Pressure altitude, m.</summary>
    PressureAltitude,

    /// <summary>Ground speed, m/s.</summary>
    GroundSpeed,

    /// <summary>True course over ground, degrees.</summary>
    Course,

    /// <summary>Velocity to the north, m/s.</summary>
    VelocityNorth,

    /// <summary>Velocity to the east, m/s.</summary>
    VelocityEast,

    /// <summary>Vertical speed up, m/s (down is a negative scale).</summary>
    Climb,

    /// <summary>Load on the hook, kg.</summary>
    Load,

    /// <summary>Torque, percent.</summary>
    Torque,

    /// <summary>Power, kW.</summary>
    Power,

    /// <summary>Roll, degrees, right positive.</summary>
    Roll,

    /// <summary>Pitch, degrees, nose up positive.</summary>
    Pitch,

    /// <summary>True heading, degrees.</summary>
    Heading,

    /// <summary>Hook open: 1, true, open or release; closed: 0, false or closed.</summary>
    Hook,
}

/// <summary>Meaning of a column and the factor that turns its numbers into the meaning's unit (seconds for times).</summary>
/// <param name="Meaning">What the column holds.</param>
/// <param name="Scale">Factor to the unit of the meaning, such as 0.3048 for feet.</param>
public readonly record struct CsvColumn(CsvMeaning Meaning, double Scale = 1);
