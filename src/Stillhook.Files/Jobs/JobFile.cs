using System.Globalization;
using System.Text.Json;
using System.Text.Unicode;
using Stillhook.Debriefing;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Files.Jobs;

/// <summary>What a job file says that a debrief needs.</summary>
/// <param name="Name">The job's name.</param>
/// <param name="Date">The day it is for, or null.</param>
/// <param name="Setup">The crew's figures, each marked as from the job file; the rest stays assumed.</param>
/// <param name="Findings">What could not be read or was not understood.</param>
public sealed record JobFile(string Name, DateOnly? Date, LiftSetup Setup, IReadOnlyList<Finding> Findings)
{
    /// <summary>Whether the file could be used at all.</summary>
    public bool IsUsable => Findings.All(f => f.Severity != Severity.Error);

    /// <summary>Reads a job file: JSON with comments and trailing commas; every key carries its unit. See docs/job-file.md.</summary>
    /// <remarks>A key that is not understood is a finding, never ignored in silence: a mistyped key is a missing figure.</remarks>
    public static JobFile Read(Stream stream)
    {
        using MemoryStream bytes = new();
        stream.CopyTo(bytes);
        ReadOnlyMemory<byte> text = bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
        if (text.Span.StartsWith("\uFEFF"u8))
            text = text["\uFEFF"u8.Length..];
        if (!Utf8.IsValid(text.Span))
            return new("", null, new(), [new(Severity.Error, "job-not-utf8", null, 1, "The job file is not UTF-8 text.", "Save it as UTF-8.")]);
        try
        {
            using JsonDocument document = JsonDocument.Parse(text, new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
            return new Reader().Read(document.RootElement);
        }
        catch (InvalidOperationException)
        {
            // The parser accepts half of a \u pair and refuses it only when the text is taken out (found by a changed byte, 2026-11-25).
            return new("", null, new(), [new(Severity.Error, "job-bad-escape", null, 1, "A \\u escape in the job file is half of a pair.", "Write the letter itself.")]);
        }
        catch (JsonException e)
        {
            return new("", null, new(), [new(Severity.Error, "job-not-json", e.LineNumber + 1, 1,
                "The job file is not JSON here.", "Look at this line and the one before it for a missing comma, quote or bracket.")]);
        }
    }

    /// <summary>Walks the document once, keeping what it understands and a finding for what it doesn't.</summary>
    private sealed class Reader
    {
        private readonly List<Finding> findings = [];
        private LiftSetup setup = new();
        private string name = "";
        private DateOnly? date;

        public JobFile Read(JsonElement root)
        {
            Each(root, "the job", (key, value) =>
            {
                switch (key)
                {
                    case "job": name = Text(value, key); break;
                    case "date": date = Date(value); break;
                    case "line": Line(value); break;
                    case "aircraft": Aircraft(value); break;
                    case "load": Load(value); break;
                    case "wind": Wind(value); break;
                    case "sites": Sites(value); break;
                    case "gates": setup = setup with { Gates = List(value, key, Gate) }; break;
                    default: return false;
                }
                return true;
            });
            return new(name, date, setup, findings);
        }

        private void Line(JsonElement line) => Each(line, "line", (key, value) =>
        {
            if (key is not ("lengthM" or "lengthFt" or "riggingM" or "riggingFt"))
                return false;
            Length length = key.EndsWith("Ft", StringComparison.Ordinal) ? Length.FromFeet(Size(value, key)) : Length.FromMeters(Size(value, key));
            Given<Length> given = new(length, Origin.JobFile);
            setup = key.StartsWith("length", StringComparison.Ordinal) ? setup with { Line = given } : setup with { Rigging = given };
            return true;
        });

        private void Aircraft(JsonElement aircraft) => Each(aircraft, "aircraft", (key, value) =>
        {
            switch (key)
            {
                case "name": break;
                case "massKg": setup = setup with { Aircraft = new(Mass.FromKilograms(Size(value, key)), Origin.JobFile) }; break;
                case "antennaAboveHookM": setup = setup with { AntennaAboveHook = new(Length.FromMeters(Size(value, key)), Origin.JobFile) }; break;
                default: return false;
            }
            return true;
        });

        private void Load(JsonElement load) => Each(load, "load", (key, value) =>
        {
            switch (key)
            {
                case "name": break;
                case "massKg": setup = setup with { Load = new(Mass.FromKilograms(Size(value, key)), Origin.JobFile) }; break;
                case "massLb": setup = setup with { Load = new(Mass.FromPounds(Size(value, key)), Origin.JobFile) }; break;
                case "heightM": setup = setup with { LoadHeight = new(Length.FromMeters(Size(value, key)), Origin.JobFile) }; break;
                case "dragAreaM2": setup = setup with { DragArea = new(Area.FromSquareMeters(Size(value, key)), Origin.JobFile) }; break;
                default: return false;
            }
            return true;
        });

        private void Wind(JsonElement wind)
        {
            double from = 0, speedKt = 0;
            Each(wind, "wind", (key, value) =>
            {
                switch (key)
                {
                    case "fromDeg": from = Size(value, key); break;
                    case "speedKt": speedKt = Size(value, key); break;
                    default: return false;
                }
                return true;
            });
            setup = setup with { Wind = new Given<Wind>(new(from % 360, Speed.FromKnots(speedKt)), Origin.JobFile) };
        }

        private void Sites(JsonElement sites)
        {
            List<PersonPosition> people = [];
            List<KnownSite> known = List(sites, "sites", site => Site(site, people));
            setup = setup with { Sites = known, People = people };
        }

        private KnownSite Site(JsonElement site, List<PersonPosition> people)
        {
            string siteName = "", use = "";
            double latitude = double.NaN, longitude = double.NaN;
            ReconReading? recon = null;
            Each(site, "a site", (key, value) =>
            {
                switch (key)
                {
                    case "name": siteName = Text(value, key); break;
                    case "use": use = Text(value, key); break;
                    case "latitudeDeg": latitude = Within(value, key, 90); break;
                    case "longitudeDeg": longitude = Within(value, key, 180); break;
                    case "recon": recon = Recon(value); break;
                    case "people": people.AddRange(List(value, key, Person)); break;
                    default: return false;
                }
                return true;
            });
            SiteUse? siteUse = use switch { "pickUp" => SiteUse.PickUp, "delivery" => SiteUse.Delivery, "base" => SiteUse.Base, _ => null };
            if (siteUse is null)
                Report("job-site-use", $"Site '{siteName}' has the use '{use}'.", "Write \"use\": \"pickUp\", \"delivery\" or \"base\".");
            if (double.IsNaN(latitude) || double.IsNaN(longitude))
                Report("job-site-position", $"Site '{siteName}' has no position.", "Give latitudeDeg and longitudeDeg in decimal degrees.");
            if (siteUse == SiteUse.Delivery && recon is not null)
                setup = setup with { Recon = recon };
            return new(siteName, siteUse ?? SiteUse.Base, latitude, longitude);
        }

        private ReconReading? Recon(JsonElement recon)
        {
            double altimeterFt = double.NaN, qnh = double.NaN, time = double.NaN;
            double? temperature = null;
            Each(recon, "recon", (key, value) =>
            {
                switch (key)
                {
                    case "altimeterFt": altimeterFt = Number(value, key); break;
                    case "qnhHPa": qnh = Number(value, key); break;
                    case "time": time = Time(value); break;
                    case "temperatureC": temperature = Number(value, key); break;
                    default: return false;
                }
                return true;
            });
            if (!double.IsNaN(altimeterFt) && !double.IsNaN(qnh) && !double.IsNaN(time))
                return new(Length.FromFeet(altimeterFt), qnh, time, temperature);
            Report("job-recon-incomplete", "A recon reading needs its altimeter reading, its QNH and its time.", "Give altimeterFt, qnhHPa and time together.");
            return null;
        }

        private PersonPosition Person(JsonElement person)
        {
            string personName = "";
            double latitude = double.NaN, longitude = double.NaN;
            Each(person, "a person", (key, value) =>
            {
                switch (key)
                {
                    case "name": personName = Text(value, key); break;
                    case "latitudeDeg": latitude = Within(value, key, 90); break;
                    case "longitudeDeg": longitude = Within(value, key, 180); break;
                    default: return false;
                }
                return true;
            });
            if (double.IsNaN(latitude) || double.IsNaN(longitude))
                Report("job-person-position", $"'{personName}' has no position.", "Give latitudeDeg and longitudeDeg in decimal degrees.");
            return new(personName, latitude, longitude);
        }

        private PlanGate Gate(JsonElement gate)
        {
            double distance = double.NaN, heightFt = double.NaN, speedKt = double.NaN, sink = double.NaN;
            Each(gate, "a gate", (key, value) =>
            {
                switch (key)
                {
                    case "distanceM": distance = Number(value, key); break;
                    case "heightAboveTargetFt": heightFt = Number(value, key); break;
                    case "groundSpeedKt": speedKt = Number(value, key); break;
                    case "sinkFtPerMin": sink = Number(value, key); break;
                    default: return false;
                }
                return true;
            });
            if (double.IsNaN(distance + heightFt + speedKt + sink))
            {
                Report("job-gate-incomplete", "A gate needs four figures.", "Give distanceM, heightAboveTargetFt, groundSpeedKt and sinkFtPerMin.");
                return new(0, 0, 0, 0);
            }
            return new(distance, Length.FromFeet(heightFt).Meters, Speed.FromKnots(speedKt).MetersPerSecond, Speed.FromFeetPerMinute(sink).MetersPerSecond);
        }

        private void Each(JsonElement element, string where, Func<string, JsonElement, bool> take)
        {
            if (element.ValueKind != JsonValueKind.Object)
            {
                Report("job-not-object", $"{where}: found {Describe(element)}.", "Write it as { \"key\": value, ... }.");
                return;
            }
            foreach (JsonProperty property in element.EnumerateObject())
                if (!take(property.Name, property.Value))
                    findings.Add(new(Severity.Warning, "job-unknown-key", null, 1, $"{where}: the key '{property.Name}' is not known and was left out.",
                        "Check its spelling and its unit ending against docs/job-file.md."));
        }

        private List<T> List<T>(JsonElement element, string key, Func<JsonElement, T> read)
        {
            if (element.ValueKind == JsonValueKind.Array)
                return [.. element.EnumerateArray().Select(read)];
            Report("job-not-list", $"{key}: found {Describe(element)}.", "Write it as a list: [ ... ].");
            return [];
        }

        private double Number(JsonElement value, string key)
        {
            if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out double number) && double.IsFinite(number))
                return number;
            Report("job-not-number", $"{key}: found {Describe(value)}.", "Write a number without quotes, with a decimal point; the unit is in the key.");
            return double.NaN;
        }

        /// <summary>A number at or above zero; zero, with an error reported, when it isn't one.</summary>
        private double Size(JsonElement value, string key)
        {
            double number = Number(value, key);
            if (number >= 0)
                return number;
            if (number < 0)
                Report("job-negative", $"{key}: {value.GetRawText()} is below zero.", "Write a size of zero or more.");
            return 0;
        }

        private double Within(JsonElement value, string key, double limit)
        {
            double number = Number(value, key);
            if (!(Math.Abs(number) > limit))
                return number;
            Report("job-out-of-range", string.Create(CultureInfo.InvariantCulture, $"{key}: {number} is outside ±{limit}."), "Write decimal degrees, north and east positive; check that latitude and longitude are not swapped.");
            return double.NaN;
        }

        private string Text(JsonElement value, string key)
        {
            if (value.ValueKind == JsonValueKind.String)
                return value.GetString()!;
            Report("job-not-text", $"{key}: found {Describe(value)}.", "Write it in quotes.");
            return "";
        }

        private DateOnly? Date(JsonElement value)
        {
            if (DateOnly.TryParseExact(Text(value, "date"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
                return day;
            Report("job-date", $"date: found {Describe(value)}.", "Write it as \"2026-06-01\".");
            return null;
        }

        private double Time(JsonElement value)
        {
            if (DateTimeOffset.TryParse(Text(value, "time"), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time))
                return time.ToUnixTimeMilliseconds() / 1000.0;
            Report("job-time", $"time: found {Describe(value)}.", "Write it as \"2026-06-01T08:10:00Z\".");
            return double.NaN;
        }

        private static string Describe(JsonElement element) => element.ValueKind switch
        {
            JsonValueKind.Object => "a group { }",
            JsonValueKind.Array => "a list [ ]",
            _ => element.GetRawText(),
        };

        private void Report(string code, string what, string mend) => findings.Add(new(Severity.Error, code, null, 1, what, mend));
    }
}
