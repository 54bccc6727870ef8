using System.Security.Cryptography;

namespace Stillhook.Store;

/// <summary>Files that wait beside the store until what they hold is kept; a killed program leaves them behind, and the next one clears them away.</summary>
internal static class Remnants
{
    private const string Ending = ".stillhook-waiting";
    private static readonly TimeSpan Old = TimeSpan.FromHours(1);

    /// <summary>A file that goes when it is closed.</summary>
    public static FileStream Waiting(string folder) =>
        new(Path.Combine(folder, Path.GetRandomFileName() + Ending), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose);

    /// <summary>Removes what killed programs left; what may still be in use by another one (younger than an hour) stays.</summary>
    public static void Clear(string folder)
    {
        foreach (string file in Directory.EnumerateFiles(folder, "*" + Ending))
            if (DateTime.UtcNow - File.GetLastWriteTimeUtc(file) > Old)
                try
                {
                    File.Delete(file);
                }
                catch (Exception e) when (e is IOException or UnauthorizedAccessException)
                {
                    // Somebody else has it; it does no harm.
                }
    }

    /// <summary>A name beside a file for what will replace it.</summary>
    public static string Beside(string file) => Path.Combine(Path.GetDirectoryName(Path.GetFullPath(file))!, Path.GetRandomFileName() + Ending);

    /// <summary>Copies and gives the SHA-256 of what was copied, lower-case hexadecimal. Writing can be given a guard, so that a full disk is told from a source that can't be read.</summary>
    public static string CopyWithDigest(Stream from, Stream to, Action<Action>? writing = null)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[1 << 16];
        for (int read; (read = from.Read(buffer, 0, buffer.Length)) > 0;)
        {
            hash.AppendData(buffer, 0, read);
            if (writing is null)
                to.Write(buffer, 0, read);
            else
                writing(() => to.Write(buffer, 0, read));
        }
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
