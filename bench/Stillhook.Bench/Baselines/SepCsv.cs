using System.Globalization;
using nietras.SeparatedValues;

namespace Stillhook.Bench.Baselines;

/// <summary>A table read with a fast library for separated values: every field of it parsed as a number, the time as a date.</summary>
public static class SepCsv
{
    public static double Sum(string path)
    {
        using SepReader rows = Sep.New(',').Reader(o => o with { CultureInfo = CultureInfo.InvariantCulture }).FromFile(path);
        string[] names = [.. rows.Header.ColNames];
        int time = Array.FindIndex(names, n => n.Contains("time", StringComparison.OrdinalIgnoreCase));
        double sum = 0;
        foreach (SepReader.Row row in rows)
            for (int i = 0; i < names.Length; i++)
                if (row[i].Span is { Length: > 0 } field)
                    sum += i == time && field.Contains('T') ? DateTimeOffset.Parse(field, CultureInfo.InvariantCulture).ToUnixTimeMilliseconds() : row[i].Parse<double>();
        return sum;
    }
}
