using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;
using Stillhook.Physics.Load;

namespace Stillhook.Bench.Baselines;

/// <summary>One flight of the batch by a library's fourth-order Runge-Kutta: same grid, same right-hand side, without hand and gusts.</summary>
public static class LibraryPendulum
{
    private const double G = 9.80665;

    /// <summary>Load from hook along and across at the last step, m.</summary>
    public static (double Along, double Across) Fly(BatchCase batch, int flight)
    {
        BatchDraws d = batch.Draws;
        double h = batch.Plan.StepS, length = d.LengthM[flight], k = d.DragPerMassPerM[flight], windAlong = d.WindAlongMs[flight], windAcross = d.WindAcrossMs[flight];
        double[] v = Sum(batch, flight, p => p.AlongMs, m => m.AlongMs), w = Sum(batch, flight, p => p.UpMs, m => m.UpMs);
        double[] a = Sum(batch, flight, p => p.AlongMs2, m => m.AlongMs2), b = Sum(batch, flight, p => p.UpMs2, m => m.UpMs2);

        Vector<double> Rate(double t, Vector<double> y)
        {
            int i = Math.Min((int)(t / h + 1e-6), a.Length - 2);
            double s = t / h - i, hookA = a[i] + s * (a[i + 1] - a[i]), hookB = b[i] + s * (b[i + 1] - b[i]);
            double ux = v[i] + s * h * (a[i] + s / 2 * (a[i + 1] - a[i])) - windAlong + y[3], uy = y[4] - windAcross, uz = w[i] + s * h * (b[i] + s / 2 * (b[i + 1] - b[i])) + y[5];
            double drag = k * Math.Sqrt(ux * ux + uy * uy + uz * uz);
            double px = -hookA - drag * ux, py = -drag * uy, pz = -G - hookB - drag * uz;
            double n = (px * y[0] + py * y[1] + pz * y[2] + y[3] * y[3] + y[4] * y[4] + y[5] * y[5]) / (y[0] * y[0] + y[1] * y[1] + y[2] * y[2]);
            return Vector<double>.Build.DenseOfArray([y[3], y[4], y[5], px - n * y[0], py - n * y[1], pz - n * y[2]]);
        }

        Vector<double> last = RungeKutta.FourthOrder(Hang(v[0] - windAlong, windAcross, w[0], a[0], b[0], k, length), 0, h * (a.Length - 1), a.Length, Rate)[^1];
        return (last[0], last[1]);
    }

    private static double[] Sum(BatchCase batch, int flight, Func<BatchApproach, double[]> plan, Func<BatchMode, double[]> mode)
    {
        double[] sum = [.. plan(batch.Plan)];
        for (int m = 0; m < batch.Modes.Length; m++)
            for (int i = 0; i < sum.Length; i++)
                sum[i] += batch.Draws.Modes[m][flight] * mode(batch.Modes[m])[i];
        return sum;
    }

    private static Vector<double> Hang(double ux, double windAcross, double uz, double a, double b, double k, double length)
    {
        double drag = k * Math.Sqrt(ux * ux + windAcross * windAcross + uz * uz);
        double px = -a - drag * ux, py = drag * windAcross, pz = -G - b - drag * uz, scale = length / Math.Sqrt(px * px + py * py + pz * pz);
        return Vector<double>.Build.DenseOfArray([scale * px, scale * py, scale * pz, 0, 0, 0]);
    }
}
