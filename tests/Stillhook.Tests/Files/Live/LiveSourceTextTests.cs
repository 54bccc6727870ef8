using Stillhook.Files.Live;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Closed form: the parts are those the text was put together from. Codes of findings are pinned.</remarks>
public class LiveSourceTextTests
{
    private readonly List<Finding> _findings = [];

    [Fact]
    public void Parse_EachForm_IsRead()
    {
        Check("udp:10110", LiveSourceKind.Udp, s => s is { Host: "127.0.0.1", Port: 10110 });
        Check("udp:[::1]:10110", LiveSourceKind.Udp, s => s is { Host: "::1", Port: 10110 });
        Check("tcp:gps.local:2000", LiveSourceKind.TcpClient, s => s is { Host: "gps.local", Port: 2000 });
        Check("tcp-listen:4001", LiveSourceKind.TcpServer, s => s is { Host: "127.0.0.1", Port: 4001 });
        Check("serial:/dev/ttyUSB0@9600", LiveSourceKind.Serial, s => s is { Path: "/dev/ttyUSB0", Baud: 9600 });
        Check("serial:COM3@4800", LiveSourceKind.Serial, s => s is { Path: "COM3", Baud: 4800 });
        Check("file:C:\\logs\\my flight.csv from=end", LiveSourceKind.File, s => s is { Path: "C:\\logs\\my flight.csv", FromEnd: true });
        Check("replay:records/a@b/flight.igc@10x", LiveSourceKind.Replay, s => s is { Path: "records/a@b/flight.igc", Speed: 10 });
        Check("replay:flight.igc@2.5", LiveSourceKind.Replay, s => s is { Path: "flight.igc", Speed: 2.5 });
        Check("replay:a@b/flight.igc", LiveSourceKind.Replay, s => s is { Path: "a@b/flight.igc", Speed: 1 });
        Assert.Empty(_findings);
    }

    [Fact]
    public void Parse_Options_NameAndColumns()
    {
        LiveSourceSetting load = LiveSourceText.Parse("serial:/dev/ttyUSB1@9600 name=load columns=time,-,load_kg", _findings)!;
        Assert.Equal("load", load.Name);
        Assert.Equal(["time", "-", "load_kg"], load.Columns);
        Assert.Equal("udp:10110", LiveSourceText.Parse("udp:10110 columns=load_kg", _findings)!.Name);
        Assert.Empty(_findings);
    }

    [Theory]
    [InlineData("gps", "source-unknown")]
    [InlineData("udp:", "port-unreadable")]
    [InlineData("udp:70000", "port-unreadable")]
    [InlineData("udp:+80", "port-unreadable")]
    [InlineData("udp:here:10110", "address-unreadable")]
    [InlineData("tcp:2000", "host-or-port-missing")]
    [InlineData("tcp:host:x", "port-unreadable")]
    [InlineData("serial:/dev/ttyUSB0", "baud-missing")]
    [InlineData("serial:COM3@fast", "baud-unreadable")]
    [InlineData("file:", "path-missing")]
    [InlineData("replay:x.igc@200", "speed-unreadable")]
    [InlineData("replay:x.igc@0", "speed-unreadable")]
    [InlineData("udp:10110 columns=time,wibble", "column-unknown")]
    [InlineData("udp:10110 from=end", "source-from")]
    public void Parse_Wrong_SaysWhatIsExpected(string text, string code)
    {
        Assert.Null(LiveSourceText.Parse(text, _findings));
        Finding finding = Assert.Single(_findings);
        Assert.Equal((code, Severity.Error), (finding.Code, finding.Severity));
        Assert.Contains(text, finding.What, StringComparison.Ordinal);
        Assert.Matches("[Ee]xpected|has it", finding.Done);
    }

    [Theory]
    [InlineData("udp:0.0.0.0:10110")]
    [InlineData("tcp-listen:192.168.1.5:4001")]
    public void Parse_OpenToTheNetwork_Warns(string text)
    {
        Assert.NotNull(LiveSourceText.Parse(text, _findings));
        Assert.Equal(("open-to-network", Severity.Warning), (Assert.Single(_findings).Code, _findings[0].Severity));
    }

    [Fact]
    public void ParseAll_SameNameTwice_IsRefused()
    {
        Assert.Single(LiveSourceText.ParseAll(["udp:10110", "udp:10110"], _findings));
        Assert.Equal("source-twice", Assert.Single(_findings).Code);
    }

    private void Check(string text, LiveSourceKind kind, Func<LiveSourceSetting, bool> holds)
    {
        LiveSourceSetting? setting = LiveSourceText.Parse(text, _findings);
        Assert.NotNull(setting);
        Assert.Equal((text, kind), (setting.Text, setting.Kind));
        Assert.True(holds(setting), setting.ToString());
    }
}
