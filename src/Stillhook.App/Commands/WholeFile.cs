namespace Stillhook.App.Commands;

/// <summary>Files for people: there whole or not at all. One of the same name is replaced only once the new one is on the disk, so a full disk never leaves half a card in place of a good one.</summary>
internal static class WholeFile
{
    /// <summary>Writes a file.</summary>
    /// <exception cref="IOException">It can't be written; what stood there before is as it was.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not write there.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        string beside = $"{path}.{Path.GetRandomFileName()}.part";
        try
        {
            using (FileStream to = new(beside, FileMode.CreateNew, FileAccess.ReadWrite))
            {
                write(to);
                to.Flush(flushToDisk: true);
            }
            File.Move(beside, path, overwrite: true);
        }
        catch
        {
            Discard(beside);
            throw;
        }
    }

    /// <summary>Writes bytes.</summary>
    public static void Write(string path, byte[] content) => Write(path, to => to.Write(content));

    private static void Discard(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The first fault is the one to tell.
        }
    }
}
