namespace Stillhook.Debriefing;

/// <summary>Where a value came from, so that every figure can say why.</summary>
public enum Origin
{
    /// <summary>Nobody said it: a stated default was taken.</summary>
    Assumed,

    /// <summary>Typed by a person for this debrief.</summary>
    Typed,

    /// <summary>Read from the job file.</summary>
    JobFile,

    /// <summary>Measured from the record.</summary>
    Record,
}

/// <summary>A value and where it came from.</summary>
public readonly record struct Given<T>(T Value, Origin From);

/// <summary>A measured value with its 90 % band.</summary>
/// <param name="Value">Best estimate.</param>
/// <param name="Low">Lower end of the 90 % band.</param>
/// <param name="High">Upper end of the 90 % band.</param>
public readonly record struct Banded(double Value, double Low, double High);
