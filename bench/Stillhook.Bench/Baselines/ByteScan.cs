namespace Stillhook.Bench.Baselines;

/// <summary>The least any reader can do: take every byte from the disk and look at it once.</summary>
public static class ByteScan
{
    public static long Lines(string path)
    {
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1, FileOptions.SequentialScan);
        byte[] buffer = new byte[1 << 16];
        long lines = 0;
        for (int count; (count = file.Read(buffer)) > 0;)
            foreach (byte b in buffer.AsSpan(0, count))
                lines += b == '\n' ? 1 : 0;
        return lines;
    }
}
