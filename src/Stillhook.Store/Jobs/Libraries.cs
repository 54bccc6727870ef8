using Microsoft.EntityFrameworkCore;

namespace Stillhook.Store;

/// <summary>A site of the library.</summary>
/// <param name="Key">Its key.</param>
/// <param name="Name">Name the crew uses.</param>
/// <param name="LatitudeDeg">North positive.</param>
/// <param name="LongitudeDeg">East positive.</param>
/// <param name="Text">The site as a job file writes it.</param>
/// <param name="By">Who saved it last.</param>
/// <param name="At">When.</param>
public sealed record KeptSite(Guid Key, string Name, double LatitudeDeg, double LongitudeDeg, string Text, string By, DateTimeOffset At);

/// <summary>Sites that jobs share: what was found out about a place once is there the next time.</summary>
public sealed class SiteLibrary
{
    private readonly WorkStore store;

    internal SiteLibrary(WorkStore store) => this.store = store;

    /// <summary>Saves a site: a new one without a key, a change of a known one with it.</summary>
    public KeptSite Save(string name, double latitudeDeg, double longitudeDeg, string text, string by, DateTimeOffset at, Guid? key = null)
    {
        if (!(Math.Abs(latitudeDeg) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitudeDeg), latitudeDeg, "Latitude is within ±90°.");
        if (!(Math.Abs(longitudeDeg) <= 180))
            throw new ArgumentOutOfRangeException(nameof(longitudeDeg), longitudeDeg, "Longitude is within ±180°.");
        return store.Write(context =>
        {
            SiteRow? row = key is { } known ? context.Sites.FirstOrDefault(s => s.Key == known) ?? throw new ArgumentException($"There is no site {known} in the library.", nameof(key)) : null;
            if (row is null)
                context.Sites.Add(row = new() { Key = Guid.CreateVersion7(), Name = name, Text = text, By = by });
            (row.Name, row.LatitudeDeg, row.LongitudeDeg, row.Text, row.By, row.At) = (Kept.Text(name), latitudeDeg, longitudeDeg, Kept.Text(text), Kept.Text(by), at.ToUniversalTime());
            context.SaveChanges();
            return ToSite(row);
        });
    }

    /// <summary>One site, or null.</summary>
    public KeptSite? Find(Guid key) => store.Read(context => context.Sites.AsNoTracking().FirstOrDefault(s => s.Key == key) is { } row ? ToSite(row) : null);

    /// <summary>All sites by name.</summary>
    public IReadOnlyList<KeptSite> List() => store.Read<IReadOnlyList<KeptSite>>(context => [.. context.Sites.AsNoTracking().AsEnumerable().OrderBy(s => s.Name, StringComparer.Ordinal).ThenBy(s => s.Key).Select(ToSite)]);

    /// <summary>Removes a site that no job uses; false when there is none or a job uses it.</summary>
    public bool Remove(Guid key) => store.Write(context => !context.JobSites.Any(s => s.SiteKey == key) && context.Sites.Where(s => s.Key == key).ExecuteDelete() > 0);

    private static KeptSite ToSite(SiteRow row) => new(row.Key, row.Name, row.LatitudeDeg, row.LongitudeDeg, row.Text, row.By, row.At);
}

/// <summary>An aircraft of the library.</summary>
/// <param name="Name">Type or registration, as the crew says it; each once.</param>
/// <param name="Text">The aircraft as a job file writes it.</param>
/// <param name="By">Who saved it last.</param>
/// <param name="At">When.</param>
public sealed record KeptAircraft(string Name, string Text, string By, DateTimeOffset At);

/// <summary>Aircraft with their charts, typed in once.</summary>
public sealed class AircraftLibrary
{
    private readonly WorkStore store;

    internal AircraftLibrary(WorkStore store) => this.store = store;

    /// <summary>Saves an aircraft under its name.</summary>
    public KeptAircraft Save(string name, string text, string by, DateTimeOffset at)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        return store.Write(context =>
        {
            AircraftRow? row = context.Aircraft.FirstOrDefault(a => a.Name == name);
            if (row is null)
                context.Aircraft.Add(row = new() { Name = Kept.Text(name), Text = text, By = by });
            (row.Text, row.By, row.At) = (Kept.Text(text), Kept.Text(by), at.ToUniversalTime());
            return ToAircraft(row);
        });
    }

    /// <summary>Changes an aircraft's text; null when there is none of this name.</summary>
    /// <param name="name">Which.</param>
    /// <param name="change">From the text as it is to what is to be kept.</param>
    /// <param name="by">Who.</param>
    /// <param name="at">When.</param>
    public KeptAircraft? Amend(string name, Func<string, string> change, string by, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(change);
        return store.Write(context =>
        {
            if (context.Aircraft.FirstOrDefault(a => a.Name == name) is not { } row)
                return null;
            (row.Text, row.By, row.At) = (Kept.Text(change(row.Text)), Kept.Text(by), at.ToUniversalTime());
            context.SaveChanges();
            return ToAircraft(row);
        });
    }

    /// <summary>One aircraft, or null.</summary>
    public KeptAircraft? Find(string name) => store.Read(context => context.Aircraft.AsNoTracking().FirstOrDefault(a => a.Name == name) is { } row ? ToAircraft(row) : null);

    /// <summary>All aircraft by name.</summary>
    public IReadOnlyList<KeptAircraft> List() => store.Read<IReadOnlyList<KeptAircraft>>(context => [.. context.Aircraft.AsNoTracking().AsEnumerable().OrderBy(a => a.Name, StringComparer.Ordinal).Select(ToAircraft)]);

    /// <summary>Removes an aircraft; its flights and hover points stay. False when there was none.</summary>
    public bool Remove(string name) => store.Write(context => context.Aircraft.Where(a => a.Name == name).ExecuteDelete() > 0);

    private static KeptAircraft ToAircraft(AircraftRow row) => new(row.Name, row.Text, row.By, row.At);
}
