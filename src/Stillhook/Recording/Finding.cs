namespace Stillhook.Recording;

/// <summary>How much a finding matters to the answer.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing was lost.</summary>
    Note,

    /// <summary>Part of the input was left out, repaired or assumed.</summary>
    Warning,

    /// <summary>The input can't be used.</summary>
    Error,
}

/// <summary>One irregularity of an input: where, what, what was expected, what was done or how to mend it.</summary>
/// <param name="Severity">How much it matters.</param>
/// <param name="Code">Short stable name in kebab case for machines and tests, such as <c>checksum-mismatch</c>.</param>
/// <param name="Line">First line (or record number in a binary or one-line file) where it was met; null when it concerns the whole input.</param>
/// <param name="Count">How often it was met.</param>
/// <param name="What">What was found, in one plain sentence.</param>
/// <param name="Done">What was done about it, or how to mend it.</param>
public sealed record Finding(Severity Severity, string Code, long? Line, long Count, string What, string Done);
