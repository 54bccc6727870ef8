using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>How a live source is doing at one moment.</summary>
/// <param name="Name">Name of the source.</param>
/// <param name="Text">As it was written.</param>
/// <param name="Up">True when its link stands and something comes.</param>
/// <param name="SinceS">Since when, by the clock of arrival, s since 1970 UTC.</param>
/// <param name="Why">What is up or why not, in words.</param>
/// <param name="Bytes">Bytes that arrived.</param>
/// <param name="BytesPerSecond">Of the last whole second.</param>
/// <param name="Good">Sentences and table lines that could be read.</param>
/// <param name="Bad">Those that were damaged, such as by a checksum that does not fit.</param>
/// <param name="Fixes">Positions given.</param>
/// <param name="Values">Values of other channels given.</param>
/// <param name="LastByteAgeS">Age of the last byte, s; NaN when none came.</param>
/// <param name="LastGoodAgeS">Age of the last sentence or line that could be read, s; NaN when none came.</param>
public sealed record SourceState(
    string Name, string Text, bool Up, double SinceS, string Why, long Bytes, long BytesPerSecond, long Good, long Bad, long Fixes, long Values,
    double LastByteAgeS, double LastGoodAgeS);

/// <summary>Something about a live source that people should know.</summary>
/// <param name="Source">Name of the source; empty when it concerns all.</param>
/// <param name="AtS">When, by the clock of arrival, s since 1970 UTC.</param>
/// <param name="Finding">What it is.</param>
public sealed record LiveFinding(string Source, double AtS, Finding Finding);
