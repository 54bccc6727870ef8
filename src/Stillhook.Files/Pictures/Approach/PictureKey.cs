namespace Stillhook.Files.Pictures.Approach;

/// <summary>What the signs of a picture mean: a row of samples with words, broken where the row is full.</summary>
internal sealed class PictureKey(SvgWriter svg, double left, double right, double y)
{
    private const double SamplePx = 30, RowPx = 22;

    private double x = double.NaN;

    /// <summary>A line of a kind.</summary>
    public PictureKey Line(string cssClass, string words) => Add(words, (at, middle) => svg.Line(at, middle, at + SamplePx, middle, cssClass));

    /// <summary>A sign.</summary>
    public PictureKey Sign(Action<double, double> draw, string words) => Add(words, (at, middle) => draw(at + SamplePx / 2, middle));

    private PictureKey Add(string words, Action<double, double> draw)
    {
        if (double.IsNaN(x))
            x = left;
        double width = SamplePx + 8 + LabelPlacer.WidthOf(words) + 16;
        if (x > left && x + width > right)
            (x, y) = (left, y + RowPx);
        draw(x, y);
        svg.Text(x + SamplePx + 8, y + 5, words, "small");
        x += width;
        return this;
    }
}
