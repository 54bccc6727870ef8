namespace Stillhook.Files.Live;

/// <summary>Something a journal kept, in the order of arrival: bytes, or what became of the link.</summary>
/// <param name="Source">Name of the source.</param>
/// <param name="Text">The source as it was written.</param>
/// <param name="ArrivedS">When it arrived by the machine's clock, s since 1970 UTC.</param>
/// <param name="Bytes">What arrived; empty when the link was lost or is back.</param>
/// <param name="LinkUp">Null for bytes; false when the link was lost, true when it is back.</param>
public sealed record JournalChunk(string Source, string Text, double ArrivedS, ReadOnlyMemory<byte> Bytes, bool? LinkUp);
