using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Takes what a live source receives and what becomes of its link. May be called from any thread, from one at a time.</summary>
internal interface ILiveReceiver
{
    /// <summary>Bytes arrived now.</summary>
    void Take(ReadOnlySpan<byte> bytes);

    /// <summary>The link stands.</summary>
    void Up(string how);

    /// <summary>The link does not stand, or no longer.</summary>
    void Down(string why);

    /// <summary>Something people should know.</summary>
    void Say(Finding finding);
}

/// <summary>Something bytes come from.</summary>
internal interface ILiveSource
{
    /// <summary>Receives until it is cancelled, or until there is nothing more to come.</summary>
    Task RunAsync(ILiveReceiver receiver, CancellationToken cancellation);
}
