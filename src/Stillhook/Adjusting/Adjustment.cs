namespace Stillhook.Adjusting;

/// <summary>What the pilot can change on the next approach.</summary>
public enum Knob
{
    /// <summary>Height at the start mark, 20 ft steps, at most 60 ft a load.</summary>
    StartHeight,

    /// <summary>Where to start down, 50 m steps or a landmark, at most 50 m a load.</summary>
    StartDistance,

    /// <summary>Speed at the start mark, 5 kt steps, at most 5 kt a load.</summary>
    EntrySpeed,

    /// <summary>Height at which hover power is coming on, 20 ft steps.</summary>
    PowerIn,

    /// <summary>Where to begin the slow-down, 50 m steps.</summary>
    SlowDownStart,

    /// <summary>Approach line, in degrees or metres left or right.</summary>
    LineUp,

    /// <summary>Sink at a gate, 50/100 ft/min steps.</summary>
    Sink,

    /// <summary>Let a swing pass before setting down.</summary>
    Wait,
}

/// <summary>One change for the next approach.</summary>
/// <param name="Knob">What to change.</param>
/// <param name="Change">Signed change in SI units: m, m/s, degrees or s as the knob says; positive is more, further, higher, right or longer.</param>
/// <param name="Sentence">One breath, sayable on the radio, in instrument units.</param>
/// <param name="Evidence">The figures behind it.</param>
public sealed record Adjustment(Knob Knob, double Change, string Sentence, string Evidence);

/// <summary>The next approach: at most two changes, or 'same again', or 'conditions moved'.</summary>
/// <param name="Line">The whole as one line for a person.</param>
/// <param name="Changes">At most two.</param>
/// <param name="Stopped">Advice that was dropped, with the limit that stopped it.</param>
/// <param name="Evidence">The figures behind it, one line.</param>
/// <param name="ConditionsMoved">Land and re-brief.</param>
public sealed record NextApproach(string Line, IReadOnlyList<Adjustment> Changes, IReadOnlyList<string> Stopped, string Evidence, bool ConditionsMoved);
