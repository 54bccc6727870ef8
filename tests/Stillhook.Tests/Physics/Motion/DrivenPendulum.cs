using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Tests.Physics.Motion;

/// <summary>The nonlinear pendulum under a hook whose acceleration is given, from plumb and at rest against the hook; no drag.</summary>
internal static class DrivenPendulum
{
    /// <summary>Amplitude left when the hook is done, and largest angle on the way, degrees.</summary>
    public static (double ResidualDeg, double PeakDeg) Run(double lengthM, double durationS, Func<double, double> hookAccelerationMs2, int steps = 2000)
    {
        SlungLoad load = new(lengthM, 500, 0);
        SlungLoadState s = SlungLoadState.Plumb(lengthM);
        double h = durationS / steps, peak = 0;
        for (int i = 0; i < steps; i++)
        {
            Enu from = new(hookAccelerationMs2(i * h), 0, 0), to = new(hookAccelerationMs2((i + 1) * h), 0, 0);
            s = SlungLoadMotion.Step(load, s, new(default, from, to, default), h);
            peak = Math.Max(peak, Angle(s, lengthM));
        }
        // Energy: 1 − cos α = 1 − cos θ + v²/(2gL), written with half angles so that small swings keep their digits.
        double half = Math.Pow(Math.Sin(Angle(s, lengthM) / 2), 2) + Math.Pow(s.LoadFromHookVelocityEnu.Length, 2) / (4 * 9.80665 * lengthM);
        return (2 * Math.Asin(Math.Sqrt(half)) * 180 / Math.PI, peak * 180 / Math.PI);
    }

    private static double Angle(SlungLoadState s, double lengthM) => Math.Abs(Math.Asin(s.LoadFromHookEnu.East / lengthM));
}
