using System.Text;

namespace Stillhook.Files.Records.Csv;

/// <summary>Finds what a column holds by the words and the unit of its heading.</summary>
internal static class CsvHeadings
{
    private const double FootM = 0.3048, KnotMs = 1852.0 / 3600, MileMs = 0.44704, PoundKg = 0.45359237, StandardGravity = 9.80665;

    /// <summary>The meaning of a heading; null when nothing in it is known.</summary>
    public static CsvColumn? Match(string heading)
    {
        HashSet<string> words = [.. Words(heading)];
        bool Has(params ReadOnlySpan<string> any)
        {
            foreach (string word in any)
                if (words.Contains(word)) return true;
            return false;
        }

        if (Has("lat", "latitude")) return new(CsvMeaning.Latitude, Has("rad") ? 180 / Math.PI : Has("1e7", "e7") ? 1e-7 : 1);
        if (Has("lon", "lng", "long", "longitude")) return new(CsvMeaning.Longitude, Has("rad") ? 180 / Math.PI : Has("1e7", "e7") ? 1e-7 : 1);
        if (Has("accuracy", "acc", "std", "sigma", "error", "hdop", "vdop", "pdop")) return null;
        if (Has("load", "hookload", "cargo") && !Has("factor", "x", "y", "z")) return new(CsvMeaning.Load, Mass(words));
        if (Has("torque", "tq", "trq", "q") && !Has("nm")) return new(CsvMeaning.Torque);
        if (Has("power")) return Has("w") ? new(CsvMeaning.Power, 0.001) : new(CsvMeaning.Power);
        if (Has("roll", "bank")) return new(CsvMeaning.Roll, Angle(words));
        if (Has("pitch")) return new(CsvMeaning.Pitch, Angle(words));
        if (Has("heading", "hdg", "yaw") && !Has("magnetic", "mag")) return new(CsvMeaning.Heading, Angle(words));
        if (Has("hook", "release")) return new(CsvMeaning.Hook);
        if (Has("event")) return new(CsvMeaning.Hook);
        if (Has("course", "track", "cog", "trk")) return new(CsvMeaning.Course, Angle(words));
        if (Has("vn", "velocitynorth") || Has("north") && Has("velocity", "vel", "speed")) return new(CsvMeaning.VelocityNorth, Speed(words));
        if (Has("ve", "velocityeast") || Has("east") && Has("velocity", "vel", "speed")) return new(CsvMeaning.VelocityEast, Speed(words));
        if (Has("vd", "sink", "descent") || Has("down") && Has("velocity", "vel", "speed")) return new(CsvMeaning.Climb, -Speed(words));
        if (Has("vs", "vu", "climb", "vario", "roc", "vertical", "fpm") || Has("up") && Has("velocity", "vel", "speed")) return new(CsvMeaning.Climb, Speed(words));
        if (Has("speed", "gs", "groundspeed", "sog", "spd", "velocity") && !Has("air", "airspeed", "ias", "tas", "wind", "rotor")) return new(CsvMeaning.GroundSpeed, Speed(words));
        if (Has("alt", "altitude", "ele", "elevation", "height") && !Has("agl", "ground", "radar"))
            return new(Has("pressure", "baro", "barometric", "press", "qne", "std") ? CsvMeaning.PressureAltitude : CsvMeaning.Altitude, Length(words));
        if (Has("date") && !Has("time")) return new(CsvMeaning.Date);
        if (Has("time", "timestamp", "datetime", "utc", "clock", "epoch", "unix", "t", "seconds", "elapsed")) return new(CsvMeaning.Time, Duration(words));
        return null;
    }

    private static double Length(HashSet<string> words) =>
        words.Contains("ft") || words.Contains("feet") || words.Contains("foot") ? FootM : words.Contains("km") ? 1000 : words.Contains("mm") ? 0.001 : words.Contains("cm") ? 0.01 : 1;

    private static double Speed(HashSet<string> words)
    {
        if (words.Contains("kt") || words.Contains("kts") || words.Contains("kn") || words.Contains("knots") || words.Contains("knot")) return KnotMs;
        if (words.Contains("kmh") || words.Contains("kph") || words.Contains("km") && words.Contains("h")) return 1 / 3.6;
        if (words.Contains("mph")) return MileMs;
        if (words.Contains("fpm") || words.Contains("ft") && words.Contains("min")) return FootM / 60;
        return words.Contains("ft") && words.Contains("s") || words.Contains("fps") ? FootM : words.Contains("cm") ? 0.01 : 1;
    }

    private static double Mass(HashSet<string> words)
    {
        if (words.Contains("lb") || words.Contains("lbs") || words.Contains("lbf") || words.Contains("pounds")) return PoundKg;
        if (words.Contains("kn")) return 1000 / StandardGravity;
        if (words.Contains("dan")) return 10 / StandardGravity;
        if (words.Contains("n") || words.Contains("newton")) return 1 / StandardGravity;
        return words.Contains("t") || words.Contains("tonnes") ? 1000 : 1;
    }

    private static double Angle(HashSet<string> words) => words.Contains("rad") ? 180 / Math.PI : 1;

    private static double Duration(HashSet<string> words) =>
        words.Contains("ms") || words.Contains("millis") || words.Contains("milliseconds") ? 0.001 : words.Contains("us") ? 1e-6 : words.Contains("ns") ? 1e-9 : words.Contains("min") ? 60 : 1;

    // Words are runs of letters and digits; a capital after a small letter starts a word (groundSpeedKt).
    private static List<string> Words(string heading)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        void End()
        {
            if (word.Length > 0) words.Add(word.ToString().ToLowerInvariant());
            word.Clear();
        }

        for (int i = 0; i < heading.Length; i++)
        {
            char c = heading[i];
            if (!char.IsLetterOrDigit(c))
            {
                End();
                continue;
            }

            if (i > 0 && char.IsUpper(c) && char.IsLower(heading[i - 1])) End();
            word.Append(c);
        }

        End();
        for (int i = words.Count - 1; i >= 0; i--)
            if (words[i] is "mps" or "mps2") words.Add("m");
        if (words.Contains("kn") is false && heading.Contains("kN", StringComparison.Ordinal)) words.Add("kn"); // kN splits at its capital
        if (heading.Contains("daN", StringComparison.Ordinal)) words.Add("dan");
        if (heading.Contains("kW", StringComparison.Ordinal)) words.RemoveAll(w => w == "w");
        return words;
    }
}
