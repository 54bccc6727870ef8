using CsCheck;
using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Pictures;

public class ThinningTests
{
    // Closed form: in every column the least and greatest value stay, and so do both ends.
    [Fact]
    public void MinMax_AnySeries_KeepsEveryColumnsExtremes() =>
        Gen.Double[-100, 100].Array[500, 2000].Sample(y =>
        {
            const int columns = 50;
            double[] x = [.. Enumerable.Range(0, y.Length).Select(i => (double)i)];
            int[] kept = Thinning.MinMax(x, columns, y);
            double span = x[^1];
            foreach (var column in Enumerable.Range(0, y.Length).GroupBy(i => Math.Min((int)(x[i] / span * columns), columns - 1)))
            {
                double[] seen = [.. column.Where(i => Array.BinarySearch(kept, i) >= 0).Select(i => y[i])];
                Assert.Equal(column.Max(i => y[i]), seen.Max());
                Assert.Equal(column.Min(i => y[i]), seen.Min());
            }
            Assert.True(kept.Length <= 4 * columns);
            Assert.Equal(0, kept[0]);
            Assert.Equal(y.Length - 1, kept[^1]);
        }, iter: 100);

    [Fact]
    public void MinMax_FewSamples_KeepsAll() => Assert.Equal([0, 1, 2], Thinning.MinMax([0, 1, 2], 10, [5, double.NaN, 7]));

    [Fact]
    public void MinMax_UnequalLengths_Refused() => Assert.Throws<ArgumentException>(() => Thinning.MinMax([0, 1], 1, [1]));
}
