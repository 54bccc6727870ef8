namespace Stillhook.Tests.Approaching;

public class FamilySearchTests
{
    // Closed form: Rosenbrock's valley has its least value, 0, at (1, 1); in three parameters at (1, 1, 1).
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void Minimise_RosenbrocksValley_FindsItsEnd(int parameters)
    {
        double Valley(double[] x) => Enumerable.Range(0, parameters - 1).Sum(i => 100 * Math.Pow(x[i + 1] - x[i] * x[i], 2) + Math.Pow(1 - x[i], 2));
        (double[] at, double value) = FamilySearch.Minimise(Valley, [.. Enumerable.Repeat(-2.0, parameters)], [.. Enumerable.Repeat(3.0, parameters)]);
        Assert.All(at, x => Assert.Equal(1, x, 1e-5));
        Assert.Equal(0, value, 1e-9);
    }

    // Closed form: sin x + sin(10x/3) has its least value on [2.7, 7.5] where its slope cos x + (10/3)·cos(10x/3) is 0; the other valleys there are higher.
    [Fact]
    public void Minimise_SeveralValleys_FindsTheDeepest()
    {
        static double Waves(double x) => Math.Sin(x) + Math.Sin(10 * x / 3);
        (double[] at, double value) = FamilySearch.Minimise(x => Waves(x[0]), [2.7], [7.5]);
        Assert.Equal(0, Math.Cos(at[0]) + 10.0 / 3 * Math.Cos(10 * at[0] / 3), 1e-4);
        Assert.True(value <= Enumerable.Range(0, 48001).Min(i => Waves(2.7 + i * 1e-4)) + 1e-9);
    }

    // Closed form: (x − 3)² + (y + 1)² on 0 ≤ x, y ≤ 2 is least at the corner (2, 0), where it is 2.
    [Fact]
    public void Minimise_LeastOutsideTheBox_StopsAtItsEdge()
    {
        (double[] at, double value) = FamilySearch.Minimise(x => Math.Pow(x[0] - 3, 2) + Math.Pow(x[1] + 1, 2), [0, 0], [2, 2]);
        Assert.Equal(2, at[0], 1e-6);
        Assert.Equal(0, at[1], 1e-6);
        Assert.Equal(2, value, 1e-5);
        Assert.All(at, x => Assert.InRange(x, 0, 2));
    }

    // Closed form: x + y is least on the line x·y = 1 at (1, 1); under the line the function refuses.
    [Fact]
    public void Minimise_PartOfTheBoxRefused_FindsTheBorder()
    {
        (double[] at, double value) = FamilySearch.Minimise(x => x[0] * x[1] < 1 ? double.NaN : x[0] + x[1], [0.1, 0.1], [4, 5]);
        Assert.True(at[0] * at[1] >= 1);
        Assert.Equal(2, value, 0.01);
    }

    [Fact]
    public void Minimise_AllRefusedOrNoBox_SaysSo()
    {
        Assert.Equal(double.PositiveInfinity, FamilySearch.Minimise(_ => double.NaN, [0], [1]).Value);
        Assert.Throws<ArgumentException>(() => FamilySearch.Minimise(x => x[0], [1], [1]));
        Assert.Throws<ArgumentException>(() => FamilySearch.Minimise(x => x[0], [0, 0, 0, 0], [1, 1, 1, 1]));
    }
}
