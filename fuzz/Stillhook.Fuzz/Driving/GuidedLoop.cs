using System.Diagnostics;
using System.IO.MemoryMappedFiles;
using System.Security.Cryptography;
using Stillhook.Fuzz.Targets;

namespace Stillhook.Fuzz.Driving;

/// <summary>Tries inputs, keeps those that take branches not met before, and changes these further.</summary>
/// <param name="target">What is tried.</param>
/// <param name="crashes">Folder for inputs that break a rule.</param>
/// <param name="seed">Of the changes.</param>
public sealed class GuidedLoop(FuzzTarget target, string crashes, int seed) : IDisposable
{
    private const int MostKeptBytes = 48_000;

    private readonly Coverage _coverage = new();
    private readonly Random _random = new(seed);
    private readonly List<byte[]> _kept = [];
    private readonly HashSet<string> _places = [];
    private readonly MemoryMappedFile _now = MemoryMappedFile.CreateFromFile(Path.Combine(Directory.CreateDirectory(crashes).FullName, $"{target.Name}.now"), FileMode.Create, null, 1 << 20);

    /// <summary>Inputs tried.</summary>
    public long Runs { get; private set; }

    /// <summary>Inputs kept.</summary>
    public IReadOnlyList<byte[]> Kept => _kept;

    /// <summary>Branches met.</summary>
    public int Edges => _coverage.Edges;

    /// <summary>Different faults found.</summary>
    public int Faults => _places.Count;

    /// <summary>Longest time of one input, s.</summary>
    public double SlowestS { get; private set; }

    /// <summary>Most memory asked for by one input, bytes.</summary>
    public long MostBytes { get; private set; }

    public void Seed(IEnumerable<byte[]> inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        Trial.Run(target, []); // what is only made once is not to be measured
        foreach (byte[] input in inputs.OrderBy(i => i.Length))
            foreach (byte[] piece in Pieces(input))
                Try(piece);
        if (_kept.Count == 0) _kept.Add([]);
    }

    public void Run(TimeSpan time)
    {
        Mutator mutator = new(_random, target.Words, target.Longest);
        long began = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(began) < time)
        {
            // The newer half more often: what was met last is least explored.
            int count = _kept.Count, from = _random.Next(2) == 0 ? 0 : count / 2;
            byte[] input = _kept[_random.Next(from, count)];
            for (int i = 0; i < 32; i++) Try(mutator.Changed(input, _kept[_random.Next(_kept.Count)]));
        }
    }

    /// <summary>Few small inputs that together take nearly every branch, for the repository.</summary>
    public IReadOnlyList<byte[]> Fewest()
    {
        HashSet<int> covered = [];
        List<byte[]> fewest = [];
        int bytes = 0;
        foreach (byte[] input in _kept.OrderBy(i => i.Length))
        {
            _coverage.Begin();
            Trial.Run(target, input);
            int before = covered.Count;
            covered.UnionWith(_coverage.Branches());
            if (covered.Count - before < 2 || bytes + input.Length > MostKeptBytes) continue;
            fewest.Add(input);
            bytes += input.Length;
        }

        return fewest;
    }

    public void Dispose()
    {
        _now.Dispose();
        File.Delete(Path.Combine(crashes, $"{target.Name}.now"));
    }

    // Longer ones are tried by their head, their middle and their end.
    private IEnumerable<byte[]> Pieces(byte[] input) => input.Length <= target.Longest
        ? [input]
        : [input[..target.Longest], input[..(target.Longest / 4)], [.. input[..(target.Longest / 4)], .. input[(input.Length / 2)..(input.Length / 2 + target.Longest / 4)]], [.. input[..(target.Longest / 4)], .. input[^(target.Longest / 4)..]]];

    private void Try(byte[] input)
    {
        Note(input);
        _coverage.Begin();
        Outcome outcome = Trial.Run(target, input);
        Runs++;
        if (outcome.Seconds > SlowestS) SlowestS = outcome.Seconds;
        if (outcome.AllocatedBytes > MostBytes) MostBytes = outcome.AllocatedBytes;
        if (outcome.Fault is not null) Keep(input, outcome);
        else if (_coverage.AnythingNew()) _kept.Add(input);
    }

    // A stack overflow ends the process; then this file holds what it was given.
    private void Note(byte[] input)
    {
        using MemoryMappedViewAccessor view = _now.CreateViewAccessor();
        view.Write(0, input.Length);
        view.WriteArray(4, input, 0, Math.Min(input.Length, (1 << 20) - 4));
    }

    private void Keep(byte[] input, Outcome outcome)
    {
        if (!_places.Add(outcome.Place)) return;
        string name = Path.Combine(crashes, $"{target.Name}-{Convert.ToHexStringLower(SHA256.HashData(input))[..12]}");
        File.WriteAllBytes(name, input);
        File.WriteAllText(name + ".txt", outcome.Fault);
        Console.WriteLine($"{target.Name}: {outcome.Fault!.Split('\n')[0]} -> {name}");
    }
}
