namespace Stillhook.Briefing;

/// <summary>What is said on printed cards, in the same words everywhere.</summary>
public static class CardCautions
{
    /// <summary>First line of every card.</summary>
    public const string Advice = "Advice only. Flight manual, operations manual, local rules and the pilot decide.";

    /// <summary>Beside every planned gate.</summary>
    public const string Gates = "Gates are for this QNH and this wind. Reset or reprint if either moves.";

    /// <summary>Beside every load check.</summary>
    public const string Charts = "Uses the chart pages you typed in; not checked by us.";

    /// <summary>Where a load's mass was not weighed.</summary>
    public const string Weights = "Weights not weighed are guesses: keep the spare.";

    /// <summary>Where a load is the first of its kind.</summary>
    public const string ProvingLift = "Unproven. Build speed slowly, watch line and mirror.";

    /// <summary>At a downwind or high site.</summary>
    public const string PlanReject = "Expect more power and a faster sink. Plan a reject.";

    /// <summary>Beside the empty way back.</summary>
    public const string EmptyLine = "Bare line can fly up. Use the empty-line speed. Confirm line clear of skids before moving off.";

    /// <summary>Under the last mark of a cockpit card: nothing below asks for eyes inside.</summary>
    public const string EyesOutside = "From here eyes outside: load, spot, voice from the ground. No more reading.";

    /// <summary>On the sheet of whoever hooks on.</summary>
    public const string HookOn = "Discharge first (wand or rated gloves). Never stand between load and a hard object. Never hold a load that lifts. Leave by the escape side.";

    /// <summary>On the sheet of whoever receives, after the words about what falls.</summary>
    public const string Receiver = "Let the load touch before you touch.";

    /// <summary>When nobody is heard, on every sheet.</summary>
    public const string LostRadio = "Radio lost: stop signal, stand clear, wait. No load moves until the radio is back or the signals are agreed face to face.";
}
