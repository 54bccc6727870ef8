namespace Stillhook.Reporting;

/// <summary>One person's duty, from reporting to being off.</summary>
/// <param name="Person">Who.</param>
/// <param name="When">The stretch.</param>
/// <param name="Note">Remark.</param>
public sealed record DutySpell(string Person, Stretch When, string? Note);
