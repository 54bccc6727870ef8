namespace Stillhook.Tests;

/// <summary>Finds the files of the repository from wherever the tests run.</summary>
internal static class Repository
{
    private static readonly string Root = Find();

    public static string File(string relative) => Path.Combine(Root, relative.Replace('/', Path.DirectorySeparatorChar));

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (System.IO.File.Exists(Path.Combine(folder.FullName, "Stillhook.slnx")))
                return folder.FullName;
        throw new InvalidOperationException("The tests run from inside the repository: Stillhook.slnx was not found above them.");
    }
}
