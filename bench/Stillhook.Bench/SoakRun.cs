using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>The program listens for hours at a hundred times the speed, while its pages are read and flights are taken in: memory, positions counted, how late a page hears.</summary>
internal static class SoakRun
{
    private const double Speed = 100;
    private const int LagRounds = 300;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60), Lost = TimeSpan.FromSeconds(3);

    /// <summary><c>soak HOURS [folder for the result]</c></summary>
    public static int Run(string[] args)
    {
        double hours = double.Parse(args[0], CultureInfo.InvariantCulture);
        string folder = Directory.CreateTempSubdirectory("stillhook-soak").FullName;
        try
        {
            return RunAsync(hours, folder, args.Length > 1 ? args[1] : null).GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<int> RunAsync(double hours, string folder, string? results)
    {
        string record = Path.Combine(folder, "long.nmea");
        int positions = Write(record, hours);
        int port = FreePort(), link = FreePort();
        string program = typeof(SoakRun).Assembly.Location.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal);
        string store = Path.Combine(folder, "soak.db");
        using Process listening = Process.Start(new ProcessStartInfo("dotnet",
            [program, "listen", $"replay:{record}@{Speed.ToString(CultureInfo.InvariantCulture)}", $"tcp-listen:{link}", "--store", store, "--port", port.ToString(CultureInfo.InvariantCulture)])
        { RedirectStandardOutput = true, RedirectStandardError = true })!;
        StringBuilder said = new();
        listening.ErrorDataReceived += (_, e) => { lock (said) said.AppendLine(e.Data); };
        listening.BeginErrorReadLine();
        listening.OutputDataReceived += (_, _) => { };
        listening.BeginOutputReadLine();
        using HttpClient client = new() { BaseAddress = new($"http://127.0.0.1:{port}"), Timeout = Patience };
        await Until(async () => (await client.GetAsync("/live")).IsSuccessStatusCode);
        StringBuilder text = new($"# The program under load for {hours:0.#} h of flight\n\n");
        List<(double AtS, double Mb)> memory = [];
        List<double> pagesMs = [];
        int taken = 0;
        using CancellationTokenSource ended = new();
        Task importing = Task.Run(() => Import(program, folder, store, ended.Token, () => taken++));
        long from = Stopwatch.GetTimestamp();
        double lasts = hours * 3600 / Speed;
        string[] pages = ["/live", "/live/ground", "/flights", "/jobs", "/days"];
        for (int i = 0; Stopwatch.GetElapsedTime(from).TotalSeconds < lasts + 10; i++)
        {
            long asked = Stopwatch.GetTimestamp();
            using (HttpResponseMessage answer = await client.GetAsync(pages[i % pages.Length]))
            {
                await answer.Content.ReadAsStringAsync();
                pagesMs.Add(Stopwatch.GetElapsedTime(asked).TotalMilliseconds);
                if (!answer.IsSuccessStatusCode)
                    throw new InvalidOperationException($"{pages[i % pages.Length]} answered {(int)answer.StatusCode}");
            }
            listening.Refresh();
            memory.Add((Stopwatch.GetElapsedTime(from).TotalSeconds, listening.WorkingSet64 / 1e6));
            await Task.Delay(100);
        }
        await ended.CancelAsync();
        await importing;
        string live = await client.GetStringAsync("/live");
        List<double> all = await Lag(client, link), lag = [.. all.Where(double.IsFinite)];
        int never = all.Count - lag.Count;
        listening.Kill();
        await listening.WaitForExitAsync();
        int kept = RecordReader.ReadFile(Directory.GetFiles(folder, "*.nmea").Single()).Count;
        int heard = Heard(folder);
        text.Append(SideBySide.Machine()).Append('\n');
        text.Append(CultureInfo.InvariantCulture, $"`listen replay:…@{Speed:0}` on {hours:0.#} h of an invented flight at 5 Hz with a load cell ({positions:N0} positions), {memory[^1].AtS:0} s; meanwhile {pagesMs.Count:N0} pages were read and {taken} flights taken in by another process into the same store.\n\n");
        text.Append(CultureInfo.InvariantCulture, $"- positions in the file {kept:N0}, heard and in the journal {heard:N0}: {positions - heard:N0} lost\n");
        text.Append(CultureInfo.InvariantCulture, $"- pages while it ran: {Percentile(pagesMs, 0.5):0.0} ms median, {Percentile(pagesMs, 0.99):0} ms in 99 of 100, {pagesMs.Max():0} ms at most\n");
        text.Append(CultureInfo.InvariantCulture, $"- a link that opens or closes, until a page's stream of events tells it ({lag.Count} times, after the replay): {Percentile(lag, 0.5):0.0} ms median, {Percentile(lag, 0.99):0.0} ms in 99 of 100, {lag.Max():0.0} ms at most, {never} never told (goal: 99 of 100 under 100 ms)\n");
        text.Append("- memory of the program, resident, medians of each sixth of the time: ");
        double sixth = memory[^1].AtS / 6;
        text.AppendJoin(", ", Enumerable.Range(0, 6).Select(k => string.Create(CultureInfo.InvariantCulture, $"{Percentile([.. memory.Where(m => m.AtS >= k * sixth && m.AtS <= (k + 1) * sixth).Select(m => m.Mb)], 0.5):0}"))).Append(" MB\n");
        lock (said)
            text.Append(CultureInfo.InvariantCulture, $"- lines on standard error: {said.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries).Count(l => l.Trim().Length > 0)}\n");
        Console.Write(text);
        Console.Error.WriteLine(said);
        if (results is not null)
            await File.WriteAllTextAsync(Path.Combine(results, string.Create(CultureInfo.InvariantCulture, $"soak-{hours:0.#}h.md")), text.ToString());
        return live.Length > 0 && heard == positions ? 0 : 1;
    }

    /// <summary>What the program itself reads back from what it recorded.</summary>
    private static int Heard(string folder)
    {
        CountingSink sink = new();
        string journals = Path.Combine(folder, "live");
        foreach (string journal in Directory.GetDirectories(journals))
            LiveInput.Rebuild(journal, sink);
        return sink.Fixes;
    }

    /// <summary>An instrument connects and goes; how long until the stream of events that every page reads tells it. One that is never told is NaN.</summary>
    private static async Task<List<double>> Lag(HttpClient client, int link)
    {
        List<double> ms = [];
        using Stream stream = await client.GetStreamAsync("/live/events");
        using StreamReader events = new(stream);
        ConcurrentQueue<long> told = new();
        Task reading = Task.Run(async () =>
        {
            try
            {
                while (await events.ReadLineAsync() is { } line)
                    if (line.StartsWith("data: link", StringComparison.Ordinal))
                        told.Enqueue(Stopwatch.GetTimestamp());
            }
            catch (Exception e) when (e is IOException or ObjectDisposedException)
            {
                // the stream was closed
            }
        });
        // The first time that a source stands is no event: nothing was lost before, and its first position is one.
        using (TcpClient first = new())
            first.Connect(IPAddress.Loopback, link);
        await Task.Delay(500);
        for (int i = 0; i < LagRounds / 2; i++)
        {
            TcpClient instrument = new();
            ms.Add(await After(() => instrument.Connect(IPAddress.Loopback, link)));
            ms.Add(await After(instrument.Dispose));
        }
        stream.Close();
        await reading;
        return ms;

        async Task<double> After(Action what)
        {
            await Task.Delay(150);
            told.Clear();
            long from = Stopwatch.GetTimestamp();
            what();
            while (told.IsEmpty && Stopwatch.GetElapsedTime(from) < Lost)
                await Task.Delay(1);
            return told.TryDequeue(out long at) ? Stopwatch.GetElapsedTime(from, at).TotalMilliseconds : double.NaN;
        }
    }

    private static void Import(string program, string folder, string store, CancellationToken ended, Action taken)
    {
        for (ulong seed = 1; !ended.IsCancellationRequested; seed++)
        {
            DayScenario scenario = ScenarioDraw.Random(seed, 4);
            string file = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"taken-{seed}.csv"));
            using (FileStream bytes = File.Create(file))
                RecordWriter.Write(Recorder.Record(DaySimulator.Fly(scenario, seed), RecorderModel.WithError(1) with { RateHz = 1 }, seed), RecordFormat.Csv, bytes);
            if (SideBySide.Start([program, "import", file, "--store", store, "--by", "bench"]).ExitCode == 0)
                taken();
        }
    }

    /// <summary>Flights one after the other until the hours are full, at 5 Hz with a load cell.</summary>
    private static int Write(string path, double hours)
    {
        const double rateHz = 5;
        FlightRecord day = Recorder.Record(DaySimulator.Fly(ScenarioDraw.Random(7, 30), 7), RecorderModel.WithError(1) with { RateHz = rateHz, Speed = true, LoadCell = true }, 7);
        int wanted = (int)(hours * 3600 * rateHz), written = 0;
        using FileStream file = File.Create(path);
        for (double shift = 0; written < wanted; shift += Math.Ceiling(day.TimeS[^1] - day.TimeS[0] + 60))
        {
            int count = Math.Min(day.Count, wanted - written);
            double[] Part(double[] column) => column.Length == 0 ? column : column[..count];
            double last = day.TimeS[count - 1];
            RecordWriter.Write(day with
            {
                TimeS = [.. day.TimeS[..count].Select(t => t + shift)], LatitudeDeg = Part(day.LatitudeDeg), LongitudeDeg = Part(day.LongitudeDeg), AltitudeM = Part(day.AltitudeM),
                PressureAltitudeM = Part(day.PressureAltitudeM), GroundSpeedMs = Part(day.GroundSpeedMs), CourseDeg = Part(day.CourseDeg), ClimbMs = Part(day.ClimbMs), SegmentStarts = [0],
                Channels = [.. day.Channels.Select(c => c with { TimeS = [.. c.TimeS.Where(t => t <= last).Select(t => t + shift)], Value = c.Value[..c.TimeS.Count(t => t <= last)] })],
            }, RecordFormat.Nmea, file);
            written += count;
        }
        return written;
    }

    private static async Task Until(Func<Task<bool>> there)
    {
        for (long from = Stopwatch.GetTimestamp(); ; await Task.Delay(100))
        {
            try
            {
                if (await there())
                    return;
            }
            catch (HttpRequestException) when (Stopwatch.GetElapsedTime(from) < Patience)
            {
                // not up yet
            }
        }
    }

    private static int FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static double Percentile(List<double> values, double part) => values.Count == 0 ? double.NaN : values.Order().ElementAt((int)(part * (values.Count - 1)));

    private sealed class CountingSink : ISampleSink
    {
        public int Fixes { get; private set; }
        public void Take(string source, in FixSample fix, double arrivedS) => Fixes++;
        public void Take(string source, in ChannelSample sample, double arrivedS) { }
        public void Link(string source, bool up, string why, double atS) { }
    }
}
