namespace Stillhook.Briefing;

/// <summary>Directions in words, for people without an instrument.</summary>
public static class Compass
{
    private static readonly string[] Eight = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

    /// <summary>One of eight directions, nearest to a true bearing in degrees.</summary>
    public static string Word(double deg) => double.IsFinite(deg) ? Eight[(int)Math.Round(((deg % 360) + 360) % 360 / 45) % 8]
        : throw new ArgumentOutOfRangeException(nameof(deg), deg, "A bearing is a finite number of degrees.");
}
