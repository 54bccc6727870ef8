namespace Stillhook.App.Commands;

/// <summary>Whether memory ran out, however deep the fault is wrapped.</summary>
internal static class OutOfMemory
{
    public const string Words = "there is not enough memory for this, and nothing half done was kept. Close other programs, or cut the record into days.";

    public static bool In(Exception e) => e is OutOfMemoryException || (e is AggregateException several ? several.InnerExceptions.Any(In) : e.InnerException is { } inner && In(inner));
}
