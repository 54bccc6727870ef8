using System.Xml;

namespace Stillhook.Bench.Baselines;

/// <summary>The least a program with the library's XML reader can do: step over every node and parse nothing.</summary>
public static class XmlWalk
{
    public static long Nodes(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        using var xml = XmlReader.Create(file, new() { DtdProcessing = DtdProcessing.Prohibit, IgnoreWhitespace = true });
        long nodes = 0;
        while (xml.Read())
            nodes++;
        return nodes;
    }
}
