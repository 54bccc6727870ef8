namespace Stillhook.Tests.Fuzzing;

/// <summary>How much is damaged: a plain run takes a sample, STILLHOOK_DAMAGE=all everything.</summary>
internal static class Damage
{
    public static bool All { get; } = Environment.GetEnvironmentVariable("STILLHOOK_DAMAGE") == "all";

    /// <summary>A number of trials, many times more in the full run.</summary>
    public static int Times(int plain, int more = 50) => All ? plain * more : plain;
}
