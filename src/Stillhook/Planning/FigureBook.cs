namespace Stillhook.Planning;

/// <summary>Every figure of a plan with its working, by key.</summary>
public sealed class FigureBook
{
    private readonly Dictionary<string, Figure> byKey = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<Figure> inOrder = [];

    /// <summary>All figures, in the order in which they were worked out.</summary>
    public IReadOnlyList<Figure> All => inOrder;

    /// <summary>The figure of a key, or null.</summary>
    public Figure? Find(string key) => byKey.GetValueOrDefault(key);

    /// <summary>Keeps a figure; the first of a key stands.</summary>
    public Figure Add(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        if (byKey.TryGetValue(figure.Key, out Figure? known))
            return known;
        byKey.Add(figure.Key, figure);
        inOrder.Add(figure);
        return figure;
    }

    /// <summary>A figure as an input of another.</summary>
    public static FigureInput Of(Figure figure, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return new(name ?? figure.Name, figure.Value, InputFrom.Figure, figure.Key);
    }
}
