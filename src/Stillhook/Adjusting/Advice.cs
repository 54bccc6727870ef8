namespace Stillhook.Adjusting;

/// <summary>A change under consideration, before it has words.</summary>
/// <param name="Knob">What to change.</param>
/// <param name="Change">By how much, SI, signed as in <see cref="Adjustment"/>.</param>
/// <param name="Effect">What it is expected to take off, in tolerances; ranks the changes.</param>
/// <param name="Evidence">Which figures to show for it.</param>
/// <param name="HardGate">A limit was broken: said first, after one delivery.</param>
internal sealed record Advice(Knob Knob, double Change, double Effect, Evidence Evidence, bool HardGate = false);

/// <summary>Which measured figures stand behind an advice.</summary>
internal enum Evidence
{
    StartHeight, StartDistance, EntrySpeed, Stop, ArrivalHeight, PeakDecel, LineUp, Sink, GateSink, Hover, SwingAtContact, Overshoot, GoAround, People,
}
