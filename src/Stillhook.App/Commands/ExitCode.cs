namespace Stillhook.App.Commands;

/// <summary>What a command's exit code means.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Done, and the answer is no: read, but no delivery was found or could be judged.</summary>
    public const int AnswerIsNo = 1;

    /// <summary>The input can't be used.</summary>
    public const int BadInput = 2;

    /// <summary>The program failed, or there is not enough memory.</summary>
    public const int Failed = 3;
}
