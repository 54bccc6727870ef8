using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary>The working of a figure in the terminal: what it is, how it follows, from what, and where each input came from, down to the typed values.</summary>
internal sealed class WhyText(TextWriter output, FigureBook figures, DisplayUnits units, string jobName, Func<string, long?> lineOf)
{
    public void Write(Figure figure) => Write(figure, "", []);

    /// <summary>Every figure that can be asked for.</summary>
    public void WriteKeys()
    {
        TextTable table = new TextTable("Ask for", "What", "Value").Words(0, 1);
        foreach (Figure figure in figures.All)
            table.Add(figure.Key, figure.Name, AmountText.Of(figure.Value, units));
        table.Write(output);
    }

    private void Write(Figure figure, string indent, HashSet<string> shown)
    {
        output.WriteLine($"{indent}{Sentence(figure.Name)}: {AmountText.Of(figure.Value, units)}");
        output.WriteLine($"{indent}  = {figure.Formula}");
        output.WriteLine($"{indent}  source: {figure.Source}{(figure.Note.Length > 0 ? $"; {figure.Note}" : "")}");
        shown.Add(figure.Key);
        foreach (FigureInput input in figure.Inputs)
            if (input.From == InputFrom.Figure && figures.Find(input.Where) is { } inner && !shown.Contains(inner.Key))
                Write(inner, indent + "  ", shown);
            else
                output.WriteLine($"{indent}  {input.Name}: {AmountText.Of(input.Value, units)}  ({Where(input)})");
    }

    private string Where(FigureInput input) => input.From switch
    {
        InputFrom.JobFile => lineOf(input.Where) is { } line ? FormattableString.Invariant($"{jobName}, line {line}, {input.Where}") : $"{jobName}, {input.Where}",
        InputFrom.Figure => $"see {input.Where}",
        InputFrom.Default => $"default, set yours: {input.Where}",
        InputFrom.Typed => $"typed: {input.Where}",
        _ => input.Where,
    };

    private static string Sentence(string name) => char.ToUpperInvariant(name[0]) + name[1..];
}
