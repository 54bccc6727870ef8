using Stillhook.App.Commands;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>A job with its file as read.</summary>
/// <param name="Kept">As kept.</param>
/// <param name="File">Its text as read; hold <see cref="JobFile.IsUsable"/> before planning.</param>
/// <param name="Ground">Elevation grid handed in for it; null without one.</param>
public sealed record OpenJob(KeptJob Kept, JobFile File, JobGround? Ground = null)
{
    /// <summary>Address of the job's pages.</summary>
    public string Address => $"/jobs/{Kept.Key}";

    /// <summary>How to plan it, as the commands do: the sites' clock and the solver.</summary>
    public PlanOptions PlanOptions() => JobArgument.PlanOptions(File);

    /// <summary>How to plan an approach of it.</summary>
    public ApproachOptions ApproachOptions() => ApproachCommand.Options(File, Ground?.Grid);
}

/// <summary>Opens jobs and works out their plans once; a plan stands for the text it was made from.</summary>
internal sealed class JobWork(ServingOptions options, GroundStore grounds)
{
    private const int Remembered = 16;
    private readonly Lock guard = new();
    private readonly LinkedList<(Guid Job, string Text, string What, Lazy<object> Value)> recent = [];

    /// <summary>The job; null when there is none of this key.</summary>
    public OpenJob? Open(Guid key)
    {
        if (options.Store.Jobs.Find(key) is not { } kept)
            return null;
        return new(kept, Once(key, kept.Text, "file", () => JobFile.Read(kept.Text)), grounds.Of(key));
    }

    /// <summary>The lift plan, the same on every page and by every command. With an unusable file nothing is planned.</summary>
    public LiftPlan Plan(OpenJob job) => Once(job.Kept.Key, job.Kept.Text, "plan", () => Job.Plan(job.File.Request, job.PlanOptions()));

    /// <summary>An approach of the job.</summary>
    /// <param name="job">The job.</param>
    /// <param name="what">Which site, load, what was typed.</param>
    public ApproachPlan Approach(OpenJob job, ApproachOptions what) =>
        Once(job.Kept.Key, job.Kept.Text, FormattableString.Invariant($"approach {what.Site} {what.Load} {what.Start?.Meters} {what.Glide?.Degrees} {what.Shift} {what.Flights} {job.Ground?.Stamp}"),
            () => Job.Approach(what.Shift.Applied(job.File.Request), what.Shift.IsEmpty ? Plan(job) : Job.Plan(what.Shift.Applied(job.File.Request), what.Plan), what));

    /// <summary>Something worked out from a text of a job, once for as long as it is among the last used.</summary>
    public T Once<T>(Guid job, string text, string what, Func<T> make)
        where T : class
    {
        Lazy<object> value;
        lock (guard)
        {
            value = recent.FirstOrDefault(r => r.Job == job && r.What == what && r.Text == text).Value ?? new(() => make());
            if (!value.IsValueCreated && recent.All(r => r.Value != value))
                recent.AddFirst((job, text, what, value));
            while (recent.Count > Remembered)
                recent.RemoveLast();
        }
        // Two who ask at once wait for one answer.
        try
        {
            return (T)value.Value;
        }
        catch
        {
            lock (guard)
                if (recent.FirstOrDefault(r => r.Value == value) is { Value: not null } failed)
                    recent.Remove(failed);
            throw;
        }
    }
}
