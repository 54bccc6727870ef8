using System.Globalization;
using System.Security.Cryptography;
using Stillhook.Fuzz.Driving;
using Stillhook.Fuzz.Targets;

namespace Stillhook.Fuzz;

/// <summary>list | try TARGET FILE... | guided TARGET SECONDS CORPUS CRASHES [SEED] [FOLDER...] | afl TARGET</summary>
internal static class FuzzProgram
{
    private static int Main(string[] args)
    {
        Coverage.Prepare();
        return args switch
        {
            ["list"] => List(),
            ["try", var name, .. var files] => Try(FuzzTarget.Named(name), files),
            ["guided", var name, var seconds, var corpus, var crashes, .. var rest] => Guided(FuzzTarget.Named(name), double.Parse(seconds, CultureInfo.InvariantCulture), corpus, crashes, rest),
            ["afl", var name] => Afl(FuzzTarget.Named(name)),
            _ => Usage(),
        };
    }

    private static int List()
    {
        foreach (FuzzTarget target in FuzzTarget.All) Console.WriteLine(target.Name);
        return 0;
    }

    private static int Try(FuzzTarget target, string[] files)
    {
        int faults = 0;
        foreach (string file in files)
        {
            Outcome outcome = Trial.Run(target, File.ReadAllBytes(file));
            if (outcome.Fault is not null) faults++;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}: {outcome.Seconds:0.000} s, {outcome.AllocatedBytes / 1e6:0.0} MB {outcome.Fault}"));
        }
        return faults == 0 ? 0 : 1;
    }

    private static int Guided(FuzzTarget target, double seconds, string corpus, string crashes, string[] rest)
    {
        int seed = rest.Length > 0 ? int.Parse(rest[0], CultureInfo.InvariantCulture) : 1;
        string own = Path.Combine(corpus, target.Name);
        Directory.CreateDirectory(own);
        using GuidedLoop loop = new(target, crashes, seed);
        loop.Seed(new[] { own }.Concat(rest.Skip(1)).Where(Directory.Exists).SelectMany(f => Directory.EnumerateFiles(f, "*", SearchOption.AllDirectories)).Select(File.ReadAllBytes));
        int before = loop.Edges;
        loop.Run(TimeSpan.FromSeconds(seconds));
        IReadOnlyList<byte[]> fewest = loop.Fewest();
        foreach (string old in Directory.EnumerateFiles(own)) File.Delete(old);
        foreach (byte[] input in fewest) File.WriteAllBytes(Path.Combine(own, Convert.ToHexStringLower(SHA256.HashData(input))[..16]), input);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{target.Name}: {loop.Runs} runs in {seconds:0} s, {before} branches from the corpus, {loop.Edges} at the end, {loop.Kept.Count} inputs met something new, {fewest.Count} kept ({fewest.Sum(f => f.Length)} bytes), {loop.Faults} faults, slowest {loop.SlowestS:0.000} s, most memory {loop.MostBytes / 1e6:0.0} MB"));
        if (loop.Edges == 0) Console.Error.WriteLine("No branch was seen: the libraries are not instrumented; use fuzz/run.");
        return loop.Faults == 0 ? 0 : 1;
    }

    private static int Afl(FuzzTarget target)
    {
        SharpFuzz.Fuzzer.Run(stream =>
        {
            using MemoryStream input = new();
            stream.CopyTo(input);
            target.Run(input.ToArray());
        });
        return 0;
    }

    private static int Usage()
    {
        Console.Error.WriteLine("list | try TARGET FILE... | guided TARGET SECONDS CORPUS CRASHES [SEED] [FOLDER...] | afl TARGET");
        return 2;
    }
}
