namespace Stillhook.Planning.Payload;

/// <summary>A load as the payload computation needs it.</summary>
/// <param name="Load">The load of the list.</param>
/// <param name="Path">Its path in the request.</param>
/// <param name="NeedKg">Mass to be planned for: entered mass with what it may be off, kg.</param>
/// <param name="KitKg">What hangs on the hook besides the load: line, hooks, swivel, slings, kg.</param>
/// <param name="RiggingMaxKg">Most the weakest part permits for the load alone, kg; infinite when no part is entered.</param>
/// <param name="WeakestPart">Name of that part.</param>
/// <param name="Construction">The construction margin applies.</param>
/// <param name="Need">The working of the mass.</param>
/// <param name="Kit">The working of the kit.</param>
/// <param name="RiggingMaxKey">Key of the figure behind the weakest part; empty when no part has a mark.</param>
public sealed record LoadOnHook(
    PlannedLoad Load, string Path, double NeedKg, double KitKg, double RiggingMaxKg, string WeakestPart, bool Construction, Figure Need, Figure Kit, string RiggingMaxKey);
