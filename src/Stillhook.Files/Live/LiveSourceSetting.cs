namespace Stillhook.Files.Live;

/// <summary>Kinds of live sources.</summary>
public enum LiveSourceKind
{
    /// <summary>Datagrams that come to a port of this machine.</summary>
    Udp,

    /// <summary>A connection this program makes.</summary>
    TcpClient,

    /// <summary>A port of this machine an instrument connects to.</summary>
    TcpServer,

    /// <summary>A serial line.</summary>
    Serial,

    /// <summary>A file that grows.</summary>
    File,

    /// <summary>A record that is played again at its own pace or faster.</summary>
    Replay,
}

/// <summary>One live source as a person wrote it, such as <c>udp:10110</c> or <c>serial:/dev/ttyUSB0@9600 name=load columns=time,load_kg</c>.</summary>
public sealed record LiveSourceSetting
{
    /// <summary>As it was written.</summary>
    public required string Text { get; init; }

    /// <summary>Name of the source among the others.</summary>
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    public required LiveSourceKind Kind { get; init; }

    /// <summary>Address to bind to, or host to connect to.</summary>
    public string Host { get; init; } = "127.0.0.1";

    /// <summary>Port, 1..65535.</summary>
    public int Port { get; init; }

    /// <summary>Path of a file or record, or name of a serial device.</summary>
    public string Path { get; init; } = "";

    /// <summary>Speed of a serial line, baud.</summary>
    public int Baud { get; init; }

    /// <summary>How many times faster than recorded, 1..100.</summary>
    public double Speed { get; init; } = 1;

    /// <summary>What the columns of table lines hold, in the words of CSV headings; empty when the lines bring a heading.</summary>
    public IReadOnlyList<string> Columns { get; init; } = [];

    /// <summary>True when a file is read from its present end on, not from its start.</summary>
    public bool FromEnd { get; init; }
}
