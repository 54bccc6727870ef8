using Microsoft.CodeAnalysis.Text;

namespace Stillhook.Mutation;

/// <summary>One small change of a source file.</summary>
/// <param name="File">The changed file's full path.</param>
/// <param name="Span">What is replaced, in characters of the file.</param>
/// <param name="Became">The text that takes its place.</param>
/// <param name="Line">Line of the change, from 1.</param>
/// <param name="Was">The statement or expression around the change as it stands, and</param>
/// <param name="Now">as it reads with the change; in one line each.</param>
internal sealed record Change(string File, TextSpan Span, string Became, int Line, string Was, string Now);

/// <summary>What became of a change.</summary>
internal enum Outcome
{
    /// <summary>It can't be compiled, so it is no change of the program and isn't counted.</summary>
    NotCompiled,

    /// <summary>A test failed.</summary>
    Failed,

    /// <summary>The tests did not end in their time.</summary>
    OutOfTime,

    /// <summary>Every test passed.</summary>
    Unnoticed,
}
