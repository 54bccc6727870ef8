namespace Stillhook.Briefing;

/// <summary>Words and signals that every crew needs the same. Common practice, no source, unless it says otherwise.</summary>
public static class CrewWords
{
    /// <summary>Stop words, each with what it asks for. Anybody may say the first.</summary>
    public static IReadOnlyList<(string Word, string Means)> Stop { get; } =
    [
        ("STOP", "Everybody, any time: hold the load where it is. Nothing moves until the pilot says go on."),
        ("GO AROUND", "Ground to pilot: climb away, do not set down. The pilot does so without asking why."),
        ("SNAG", "Line or load has caught: no pull, slack off, hold."),
        ("SWINGING", "Load swings or spins: stay clear until it hangs still or touches."),
    ];

    /// <summary>Signals by name with how they are given [SERA-APP1]: seen from the front, wands or gloves in the hands.</summary>
    public static IReadOnlyList<(string Name, string How)> Signals { get; } =
    [
        ("Hover", "Both arms straight out to the sides."),
        ("Move up", "Arms straight out to the sides, palms up, move both upwards."),
        ("Move down", "Arms straight out to the sides, palms down, move both downwards."),
        ("Move sideways", "One arm straight out to the side to move to; the other arm sweeps over in the same direction."),
        ("Stop", "Arms from straight out to the sides slowly over the head until the hands cross."),
        ("Emergency stop", "Arms thrown up over the head, hands crossed."),
        ("Hold, stand by", "Both arms straight, down and out at 45 degrees."),
    ];

    /// <summary>What the signals do not cover.</summary>
    public const string SignalsGap = "There is no standard signal here for release the load: agree one face to face, or use the radio.";

    /// <summary>What to do when something goes wrong, to be talked through before the first lift.</summary>
    public static IReadOnlyList<(string Event, string Answer)> Troubles { get; } =
    [
        ("Load swings or spins", "Ground calls it aloud. Slow smoothly, reject early."),
        ("Not enough power over the spot", "Reject at the gate. Nobody under the way out."),
        ("Line or load snags", "SNAG. No pull. Release as briefed."),
        ("Hook will not open", "Set the load down, stay low; the ground opens by hand only when the hook is down."),
        ("Engine or drive trouble", "Flight manual. The load goes; emergency spots below."),
        ("Somebody in the zone", "STOP. Hold or go away, never lower."),
        ("Wire or obstacle touched", "Land. Do not fly on."),
        ("Wind, cloud or heat out of plan", "Land, re-brief, new cards."),
    ];

    /// <summary>Daily check of hook and release, to be ticked before the first lift.</summary>
    public static IReadOnlyList<string> HookCheck { get; } =
    [
        "Release tried: primary, backup, by hand; seen to lock again.",
        "Remote hook opened and closed from the seat and by hand.",
        "Ring turns free in the hook and can't ride over beam or keeper.",
        "Line laid out and looked over; no strand broken, no kink, swivel turns.",
        "Line not over a skid; electric cable has slack.",
    ];
}
