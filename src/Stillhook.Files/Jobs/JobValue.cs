namespace Stillhook.Files.Jobs;

/// <summary>What stands at a place of the file.</summary>
internal enum JobValueKind
{
    /// <summary>null.</summary>
    Null,

    /// <summary>true or false.</summary>
    Flag,

    /// <summary>A number; its text is as written.</summary>
    Number,

    /// <summary>Text in quotes.</summary>
    Text,

    /// <summary>A list.</summary>
    List,

    /// <summary>A group of keys.</summary>
    Group,

    /// <summary>Text that could not be taken out; already reported.</summary>
    Spoilt,
}

/// <summary>A value of the file with the line it starts on.</summary>
internal sealed record JobValue(JobValueKind Kind, long Line, string Text = "")
{
    /// <summary>Items of a list.</summary>
    public IReadOnlyList<JobValue> Items { get; init; } = [];

    /// <summary>Keys of a group, in the order of the file, each key once.</summary>
    public IReadOnlyList<JobEntry> Entries { get; init; } = [];

    /// <summary>What it is, in words, short enough for one line.</summary>
    public string Describe() => Kind switch
    {
        JobValueKind.Null => "null",
        JobValueKind.Text => $"\"{Shown(Text)}\"",
        JobValueKind.List => "a list [ ]",
        JobValueKind.Group => "a group { }",
        _ => Shown(Text),
    };

    /// <summary>A text of the file fit to stand in a message: one line, not long.</summary>
    public static string Shown(string text)
    {
        const int longest = 40;
        string head = text.Length <= longest ? text : text[..longest] + "...";
        return string.Concat(head.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? '?' : c));
    }
}

/// <summary>A key of a group with its value.</summary>
internal readonly record struct JobEntry(string Key, long Line, JobValue Value);
