using System.Globalization;
using System.Net;
using Stillhook.Files.Records.Csv;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Reads how a live source is written.</summary>
public static class LiveSourceText
{
    /// <summary>The forms, for people.</summary>
    public const string Forms =
        "udp:PORT, udp:ADDRESS:PORT, tcp:HOST:PORT, tcp-listen:PORT, tcp-listen:ADDRESS:PORT, serial:DEVICE@BAUD, file:PATH or replay:PATH@SPEED, and behind it name=NAME, columns=A,B or from=end";

    private static readonly string[] s_options = ["name", "columns", "from"];

    /// <summary>Reads several; two sources that are the same, or have one name, are an error.</summary>
    public static IReadOnlyList<LiveSourceSetting> ParseAll(IEnumerable<string> texts, ICollection<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(texts);
        ArgumentNullException.ThrowIfNull(findings);
        var all = new List<LiveSourceSetting>();
        foreach (string text in texts)
        {
            if (Parse(text, findings) is not { } setting) continue;
            if (all.Find(s => s.Name == setting.Name) is { } same)
                Refuse(findings, "source-twice", $"'{text}' has the same name as '{same.Text}': {same.Name}.", "Give each source once, or another name: name=NAME.");
            else
                all.Add(setting);
        }

        if (all.Exists(s => s.Kind == LiveSourceKind.Replay) && all.Exists(s => s.Kind != LiveSourceKind.Replay))
            findings.Add(new Finding(Severity.Warning, "replay-beside-live", null, 1, "A record is replayed beside a live source.", "What is live is stamped with the time of the record."));
        return all;
    }

    /// <summary>Reads one; null with an error among the findings when it can't be one.</summary>
    public static LiveSourceSetting? Parse(string text, ICollection<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(findings);
        string rest = text.Trim();
        Dictionary<string, string> options = TakeOptions(ref rest);
        int colon = rest.IndexOf(':', StringComparison.Ordinal);
        string kind = colon < 0 ? rest : rest[..colon], where = colon < 0 ? "" : rest[(colon + 1)..];
        LiveSourceSetting? setting = kind.ToLowerInvariant() switch
        {
            "udp" => Bound(text, where, LiveSourceKind.Udp, findings),
            "tcp" => Connected(text, where, findings),
            "tcp-listen" => Bound(text, where, LiveSourceKind.TcpServer, findings),
            "serial" => Serial(text, where, findings),
            "file" => OfPath(text, where, LiveSourceKind.File, findings),
            "replay" => Replay(text, where, findings),
            _ => Refuse(findings, "source-unknown", $"'{text}' is no kind of live source.", $"Expected {Forms}."),
        };
        return setting is null ? null : WithOptions(setting with { Name = rest }, options, findings);
    }

    private static Dictionary<string, string> TakeOptions(ref string rest)
    {
        var options = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        while (true)
        {
            int blank = rest.LastIndexOf(' ');
            if (blank < 0) return options;
            string last = rest[(blank + 1)..];
            int equals = last.IndexOf('=', StringComparison.Ordinal);
            if (equals < 1 || !s_options.Contains(last[..equals].ToLowerInvariant())) return options;
            options.TryAdd(last[..equals], last[(equals + 1)..]);
            rest = rest[..blank].TrimEnd();
        }
    }

    private static LiveSourceSetting? WithOptions(LiveSourceSetting setting, Dictionary<string, string> options, ICollection<Finding> findings)
    {
        if (options.TryGetValue("name", out string? name))
        {
            if (name.Length == 0) return Refuse(findings, "source-name", $"'{setting.Text}' has an empty name.", "Expected name=NAME without blanks.");
            setting = setting with { Name = name };
        }

        if (options.TryGetValue("from", out string? from))
        {
            if (setting.Kind != LiveSourceKind.File || from is not ("end" or "start"))
                return Refuse(findings, "source-from", $"'{setting.Text}': from={from} is not understood.", "Only file: has it, as from=start or from=end.");
            setting = setting with { FromEnd = from == "end" };
        }

        if (!options.TryGetValue("columns", out string? columns)) return setting;
        string[] words = columns.Split(',', StringSplitOptions.TrimEntries);
        string? unknown = Array.Find(words, w => w != "-" && CsvHeadings.Match(w) is null);
        if (unknown is not null)
            return Refuse(findings, "column-unknown", $"'{setting.Text}': '{unknown}' says nothing that is known about a column.",
                "Expected words as headings have them, such as time, load_kg, load_lb, torque_pct, hook; '-' for a column to pass over.");
        return setting with { Columns = words };
    }

    private static LiveSourceSetting? Bound(string text, string where, LiveSourceKind kind, ICollection<Finding> findings)
    {
        int colon = where.LastIndexOf(':');
        string host = colon < 0 ? "127.0.0.1" : where[..colon].Trim('[', ']');
        string form = kind == LiveSourceKind.Udp ? "udp" : "tcp-listen";
        if (!Port(where[(colon + 1)..], out int port))
            return Refuse(findings, "port-unreadable", $"'{text}': '{where[(colon + 1)..]}' is no port.", $"Expected a number 1 to 65535, such as {form}:10110.");
        if (host == "localhost") host = "127.0.0.1";
        if (!IPAddress.TryParse(host, out IPAddress? address))
            return Refuse(findings, "address-unreadable", $"'{text}': '{host}' is no address of this machine.", $"Expected a number such as {form}:0.0.0.0:{port} for all, or {form}:{port} for this machine only.");
        if (!IPAddress.IsLoopback(address))
            findings.Add(new Finding(Severity.Warning, "open-to-network", null, 1, $"'{text}' takes data from the network: any machine that reaches {address} can send positions.",
                $"Use it on a closed network only; {form}:{port} takes data from this machine alone."));
        return new LiveSourceSetting { Text = text, Name = text, Kind = kind, Host = host, Port = port };
    }

    private static LiveSourceSetting? Connected(string text, string where, ICollection<Finding> findings)
    {
        int colon = where.LastIndexOf(':');
        if (colon < 1) return Refuse(findings, "host-or-port-missing", $"'{text}' needs a host and a port.", "Expected tcp:HOST:PORT, such as tcp:192.168.1.10:2000.");
        if (!Port(where[(colon + 1)..], out int port))
            return Refuse(findings, "port-unreadable", $"'{text}': '{where[(colon + 1)..]}' is no port.", "Expected a number 1 to 65535, such as tcp:192.168.1.10:2000.");
        return new LiveSourceSetting { Text = text, Name = text, Kind = LiveSourceKind.TcpClient, Host = where[..colon].Trim('[', ']'), Port = port };
    }

    private static LiveSourceSetting? Serial(string text, string where, ICollection<Finding> findings)
    {
        int at = where.LastIndexOf('@');
        if (at < 1) return Refuse(findings, "baud-missing", $"'{text}' needs a device and a speed.", "Expected serial:DEVICE@BAUD, such as serial:/dev/ttyUSB0@9600, serial:COM3@4800 or serial:/dev/tty.usbserial@38400.");
        if (!int.TryParse(where[(at + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out int baud) || baud is < 300 or > 4_000_000)
            return Refuse(findings, "baud-unreadable", $"'{text}': '{where[(at + 1)..]}' is no speed of a serial line.", "Expected baud 300 to 4000000; instruments usually have 4800, 9600, 38400 or 115200.");
        return new LiveSourceSetting { Text = text, Name = text, Kind = LiveSourceKind.Serial, Path = where[..at], Baud = baud };
    }

    private static LiveSourceSetting? OfPath(string text, string path, LiveSourceKind kind, ICollection<Finding> findings) =>
        path.Length == 0
            ? Refuse(findings, "path-missing", $"'{text}' needs a path.", kind == LiveSourceKind.File ? "Expected file:PATH." : "Expected replay:PATH@SPEED.")
            : new LiveSourceSetting { Text = text, Name = text, Kind = kind, Path = path };

    private static LiveSourceSetting? Replay(string text, string where, ICollection<Finding> findings)
    {
        int at = where.LastIndexOf('@');
        string number = at < 0 ? "" : where[(at + 1)..].TrimEnd('x', 'X');
        if (at < 0 || number.IndexOfAny(['/', '\\']) >= 0) return OfPath(text, where, LiveSourceKind.Replay, findings);
        if (!double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double speed) || speed is not (>= 1 and <= 100))
            return Refuse(findings, "speed-unreadable", $"'{text}': '{where[(at + 1)..]}' is no speed of a replay.", "Expected 1 to 100, such as replay:flight.igc@10.");
        LiveSourceSetting? setting = OfPath(text, where[..at], LiveSourceKind.Replay, findings);
        return setting is null ? null : setting with { Speed = speed };
    }

    private static bool Port(string text, out int port) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out port) && port is >= 1 and <= 65_535;

    private static LiveSourceSetting? Refuse(ICollection<Finding> findings, string code, string what, string mend)
    {
        findings.Add(new Finding(Severity.Error, code, null, 1, what, mend));
        return null;
    }
}
