using CsCheck;
using Stillhook.Fuzz.Driving;
using Stillhook.Fuzz.Targets;

namespace Stillhook.Tests.Fuzzing;

/// <summary>The targets of the fuzzer without its guidance: what was found once, the kept corpus, and changes of both at random.</summary>
public class FuzzTargetTests
{
    // A fault is an exception, a broken rule, more than 5 s or 500 MB.
    public static TheoryData<string> Names => [.. FuzzTarget.All.Select(t => t.Name)];

    [Theory, MemberData(nameof(Names))]
    public void Run_CorpusAndWhatWasFound_KeepsTheRules(string name)
    {
        FuzzTarget target = FuzzTarget.Named(name);
        Trial.Run(target, []);
        foreach ((string file, byte[] bytes) in Inputs(name)) Assert.Null(Trial.Run(target, bytes) is { Fault: { } fault } ? $"{file}: {fault}" : null);
    }

    [Theory, MemberData(nameof(Names))]
    public void Run_ChangedAtRandom_KeepsTheRules(string name)
    {
        FuzzTarget target = FuzzTarget.Named(name);
        byte[][] inputs = [.. Inputs(name).Select(i => i.Bytes), []];
        int times = Damage.Times(name is "archive-contents" or "debrief" or "pasted-table" ? 25 : 150);
        Gen.Select(Gen.Int[0, inputs.Length - 1], Gen.Int[0, inputs.Length - 1], Gen.Int).Sample((one, other, seed) =>
        {
            byte[] changed = new Mutator(new Random(seed), target.Words, target.Longest).Changed(inputs[one], inputs[other]);
            Outcome outcome = Trial.Run(target, changed);
            Assert.True(outcome.Fault is null, $"{outcome.Fault} for {Convert.ToBase64String(changed)}");
        }, iter: times, threads: 1);
    }

    private static List<(string File, byte[] Bytes)> Inputs(string name) =>
        [.. new[] { $"fuzz/corpus/{name}", $"tests/data/found/{name}" }.Select(Repository.File).Where(Directory.Exists).SelectMany(f => Directory.EnumerateFiles(f)).Order(StringComparer.Ordinal).Select(f => (f, File.ReadAllBytes(f)))];
}
