using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Takes what a decoder finds in lines; a record being built and a live link are both such targets.</summary>
internal interface IRecordTarget
{
    /// <summary>A fix.</summary>
    /// <param name="fix">Its time is NaN when the lines told none.</param>
    /// <param name="clockS">Time of day that was told, with or without a date, s; else NaN.</param>
    void Fix(in FixSample fix, double clockS);

    /// <summary>A position that counts only when the input has no better ones.</summary>
    void Spare(double timeS, double clockS, double latitudeDeg, double longitudeDeg);

    /// <summary>A value of a channel; time and time of day as for a fix.</summary>
    void Channel(ChannelKind kind, double timeS, double clockS, double value);
}
