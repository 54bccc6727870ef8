using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Passes samples on; a failure behind it is said and never ends the recording.</summary>
internal sealed class GuardedSink(ISampleSink inner, Action<string, Finding> say) : ISampleSink
{
    public void Take(string source, in FixSample fix, double arrivedS)
    {
        try
        {
            inner.Take(source, fix, arrivedS);
        }
        catch (Exception e)
        {
            Say(source, e);
        }
    }

    public void Take(string source, in ChannelSample sample, double arrivedS)
    {
        try
        {
            inner.Take(source, sample, arrivedS);
        }
        catch (Exception e)
        {
            Say(source, e);
        }
    }

    public void Link(string source, bool up, string why, double atS)
    {
        try
        {
            inner.Link(source, up, why, atS);
        }
        catch (Exception e)
        {
            Say(source, e);
        }
    }

    private void Say(string source, Exception e) =>
        say(source, new Finding(Severity.Error, "following-failed", null, 1, $"A sample could not be followed: {e.GetType().Name}: {e.Message}", "It is recorded; following goes on with the next one."));
}
