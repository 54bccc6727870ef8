namespace Stillhook.Reporting.Printing;

/// <summary>A picture made of lines, shapes and words, in points from the top left corner, y down. Made for black and white.</summary>
/// <param name="Title">What it shows, for those who don't see it too.</param>
/// <param name="Width">Width, points.</param>
/// <param name="Height">Height, points.</param>
/// <param name="Shapes">Shapes; later ones lie over earlier ones.</param>
public sealed record PrintedPicture(string Title, double Width, double Height, IReadOnlyList<Shape> Shapes) : PrintedPart;

/// <summary>How a shape is drawn.</summary>
public enum ShapeStyle
{
    /// <summary>Thin grey line.</summary>
    Grid,

    /// <summary>Black line.</summary>
    Line,

    /// <summary>Filled black.</summary>
    Solid,

    /// <summary>White with a black edge.</summary>
    Hollow,

    /// <summary>Filled with a middle grey and edged black.</summary>
    Grey,

    /// <summary>Filled with a light grey and edged black: words and lines over it can be read.</summary>
    Pale,

    /// <summary>Middle grey line, nothing filled.</summary>
    Ring,
}

/// <summary>A shape of a picture.</summary>
/// <param name="Style">How it is drawn.</param>
public abstract record Shape(ShapeStyle Style);

/// <summary>A straight line.</summary>
public sealed record LineShape(double X1, double Y1, double X2, double Y2, ShapeStyle Style) : Shape(Style);

/// <summary>A circle.</summary>
public sealed record CircleShape(double X, double Y, double Radius, ShapeStyle Style) : Shape(Style);

/// <summary>A closed polygon.</summary>
/// <param name="Points">Corners.</param>
/// <param name="Style">How it is drawn.</param>
public sealed record PolygonShape(IReadOnlyList<(double X, double Y)> Points, ShapeStyle Style) : Shape(Style)
{
    /// <summary>An upright rectangle.</summary>
    public static PolygonShape Box(double x, double y, double width, double height, ShapeStyle style) => new([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], style);
}

/// <summary>Where a word is held.</summary>
public enum WordAnchor
{
    /// <summary>At its left end.</summary>
    Start,

    /// <summary>In its middle.</summary>
    Middle,

    /// <summary>At its right end.</summary>
    End,
}

/// <summary>Words in black.</summary>
/// <param name="X">Where they are held.</param>
/// <param name="Y">Base line.</param>
/// <param name="Text">The words.</param>
/// <param name="Anchor">How they are held.</param>
/// <param name="Size">Size, points.</param>
public sealed record WordShape(double X, double Y, string Text, WordAnchor Anchor = WordAnchor.Start, double Size = 9) : Shape(ShapeStyle.Solid);
