using System.Globalization;
using Stillhook.Files.Records;

namespace Stillhook.Bench.Baselines;

/// <summary>Our reader alone, with what memory it took beyond the fixes it keeps.</summary>
public static class ReadOnly
{
    public static string Count(string path) => RecordReader.ReadFile(path).Count.ToString(CultureInfo.InvariantCulture);
}
