using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Tests.Approaching;

/// <summary>Drives the nonlinear pendulum by a planned hook path: what the load truly does, apart from the map that planned it.</summary>
internal static class Replay
{
    /// <summary>Swing left against the steady hang once the hook has stopped, and the load's place at contact, m.</summary>
    /// <param name="path">Planned path.</param>
    /// <param name="flown">The load as it is in truth.</param>
    /// <param name="wind">The wind as it is in truth (along, right, up), m/s.</param>
    public static (double SwingM, Enu Place, double MostOffM) Fly(LoadPath path, SlungLoad flown, Enu wind)
    {
        SlungLoadState state = SlungLoadMotion.Steady(flown, path.HookAcceleration(0), path.HookVelocity(0) - wind);
        double most = 0;
        for (int i = 0; i + 1 < path.Count; i++)
        {
            state = SlungLoadMotion.Step(flown, state, new(path.HookVelocity(i), path.HookAcceleration(i), path.HookAcceleration(i + 1), wind), path.StepS);
            most = Math.Max(most, (path.Hook[i + 1] + state.LoadFromHookEnu - path.Load[i + 1]).Length);
        }
        Enu hang = SlungLoadMotion.Steady(flown, default, -1 * wind).LoadFromHookEnu, off = state.LoadFromHookEnu - hang;
        double w = Math.Sqrt(Gravity.Standard / flown.LengthM), rate = state.LoadFromHookVelocityEnu.Horizontal / w;
        return (Math.Sqrt(off.Horizontal * off.Horizontal + rate * rate), path.Hook[^1] + state.LoadFromHookEnu, most);
    }
}
