namespace Stillhook.Files.Live;

/// <summary>Something a journal kept, in the order of arrival: bytes, what became of the link, or that bytes are missing.</summary>
/// <param name="Source">Name of the source.</param>
/// <param name="Text">The source as it was written.</param>
/// <param name="ArrivedS">When it arrived by the machine's clock, s since 1970 UTC.</param>
/// <param name="Bytes">What arrived; empty when the link was lost or is back, and where bytes could not be kept.</param>
/// <param name="LinkUp">Null for bytes, also for missing ones; false when the link was lost, true when it is back.</param>
internal sealed record JournalChunk(string Source, string Text, double ArrivedS, ReadOnlyMemory<byte> Bytes, bool? LinkUp);
