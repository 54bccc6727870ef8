using Stillhook.App.Commands;
using Stillhook.Tests.Store.Anomaly;

namespace Stillhook.Tests.App;

public sealed class WholeFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook-files").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // Closed form: ten pieces of three bytes.
    [Fact]
    public void Write_NthPieceFails_TheOldFileStands()
    {
        string path = Path.Combine(folder, "pilot.pdf");
        for (int at = 1; ; at++)
        {
            File.WriteAllText(path, "the card before");
            FaultPoint point = new(at);
            Exception? told = Record.Exception(() => WholeFile.Write(path, to =>
            {
                for (int piece = 0; piece < 10; piece++)
                {
                    point.Pass(() => new IOException("The device is gone"));
                    to.Write([1, 2, 3]);
                }
            }));
            Assert.Equal([path], Directory.EnumerateFiles(folder));
            if (!point.Hit)
            {
                Assert.Null(told);
                Assert.Equal(11, at);
                Assert.Equal(30, new FileInfo(path).Length);
                return;
            }
            Assert.IsType<IOException>(told);
            Assert.Equal("the card before", File.ReadAllText(path));
        }
    }
}
