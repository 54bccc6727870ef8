using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Reports;

/// <summary>The approach for machines. Keys carry their unit; null means not given, not judged or not offered. Courses are true; heights count from the spot's ground; distances are the hook's, to go.</summary>
public sealed record ApproachDocument(
    [property: Description("Always stillhook-approach.")] string Schema,
    [property: Description("Rises when a key changes its meaning or goes away.")] int Version,
    string? Job,
    DateOnly? Date,
    string? TimeZone,
    [property: Description("To be shown wherever a figure of this plan is shown.")] IReadOnlyList<string> Cautions,
    [property: Description("What is wrong with or missing from the job; with an error nothing is planned.")] IReadOnlyList<FindingDocument> Findings,
    [property: Description("True when a way in that breaks nothing is offered.")] bool Offered,
    [property: Description("Why none is offered, in a sentence.")] string? Refused,
    [property: Description("What would make it flyable, within all limits.")] IReadOnlyList<string> Remedies,
    [property: Description("What moved, when it was planned again with readings of the day; what stops begins with STOP.")] IReadOnlyList<string>? Changes,
    [property: Description("Load, site, time and air that it is planned for.")] ApproachSituationDocument? Situation,
    [property: Description("The way offered.")] ApproachWayDocument? Way,
    [property: Description("Marks from the start mark to the spot.")] IReadOnlyList<ApproachGateDocument> Gates,
    [property: Description("The latest place at which hover power must be coming on.")] PowerInDocument? PowerIn,
    [property: Description("The last place from which going around keeps the load clear.")] RejectDocument? Reject,
    [property: Description("How far ahead a load let go on the way in lands at most, margin included.")] double? FallReachM,
    [property: Description("One swing there and back with the hook held still.")] double? SwingPeriodS,
    [property: Description("Every direction with what was found.")] IReadOnlyList<SectorDocument> Sectors,
    [property: Description("How it comes out in simulated flights.")] RobustnessDocument? Robustness,
    IReadOnlyList<ApproachCheckDocument> Checks,
    [property: Description("The way back with the bare line and its hook.")] EmptyLineDocument? EmptyLine,
    [property: Description("Defaults taken because nobody said; to be set by the operator.")] IReadOnlyList<InputDocument> Defaults,
    [property: Description("Every figure with its working.")] IReadOnlyList<FigureDocument> Figures,
    [property: Description("The path each half second, and at contact.")] IReadOnlyList<PathSampleDocument> Path);

/// <summary>Load, site, time and air of an approach.</summary>
public sealed record ApproachSituationDocument(
    string Site,
    [property: Description("Number in the list of loads.")] string? LoadNumber,
    string LoadName,
    [property: Description("All that hangs on the line: load and kit, without the line itself.")] double HookMassKg,
    [property: Description("Aircraft, fuel, people, line and load.")] double? GrossKg,
    [property: Description("Hook to the load's underside: line, rigging and load.")] double ContactLengthM,
    [property: Description("Elevation of the spot's ground.")] double ElevationM,
    [property: Description("Local clock time planned for.")] string? Clock,
    ApproachWindDocument? Wind,
    [property: Description("Gust over the mean wind that is planned for.")] double GustOverMeanKt,
    double TemperatureC,
    double? QnhHPa,
    [property: Description("Of the hook with the load touching.")] double PressureAltitudeFt,
    double DensityAltitudeFt,
    [property: Description("Power in hand over the spot, percent of what the hover takes.")] double? PowerInHandPercent,
    [property: Description("Power left over the spot, percent of what there is.")] double? PowerLeftPercent);

/// <summary>The wind that an approach is planned for.</summary>
public sealed record ApproachWindDocument([property: Description("True direction it blows from.")] double FromDeg, double SpeedKt);

/// <summary>The way offered.</summary>
public sealed record ApproachWayDocument(
    double CourseDeg,
    [property: Description("Air speed brought to the start mark.")] double EntryAirSpeedKt,
    [property: Description("Ground speed that follows there.")] double EntryGroundSpeedKt,
    [property: Description("Distance to go at the start mark.")] double StartM,
    [property: Description("Height of the load there.")] double StartHeightM,
    [property: Description("Straight line from the start mark to the spot.")] double GlideDeg,
    [property: Description("glide or allowedSink: how the height follows.")] string HeightLaw,
    [property: Description("Way of the slow-down, which ends over the spot.")] double SlowDownM,
    [property: Description("Hardest slow-down of the hook, in standard gravity.")] double HardestSlowDownG,
    [property: Description("Height of the load at rest over the spot.")] double LetDownM,
    [property: Description("From the start mark to contact.")] double TimeToContactS);

/// <summary>A mark of the approach as it is flown.</summary>
public sealed record ApproachGateDocument(
    [property: Description("What is to be done there; null for a mark that is a distance alone.")] string? Name,
    double DistanceM,
    [property: Description("What is seen there, where it was entered.")] string? Landmark,
    double HookHeightM,
    [property: Description("Of the load's underside.")] double LoadHeightM,
    [property: Description("Altimeter reading, rounded up to 20 ft.")] double AltimeterFt,
    [property: Description("The same before rounding.")] double UnroundedFt,
    [property: Description("Part of it that is the temperature correction.")] double TemperatureFt,
    [property: Description("Setting that the reading is for; null when none was given.")] double? QnhHPa,
    [property: Description("In steps of 5 kt.")] double GroundSpeedKt,
    [property: Description("In steps of 5 kt; null where an indicator does not show it.")] double? AirSpeedKt,
    [property: Description("In the steps of the instrument.")] double SinkFtPerMin,
    [property: Description("Power expected, percent of what is available.")] double? PowerPercent,
    double? TorquePercent,
    [property: Description("Share of simulated flights that are off the mark here, 0 to 1; null where it is not judged.")] double? OffShare);

/// <summary>Power-in gate.</summary>
public sealed record PowerInDocument(
    [property: Description("Reading of the mark.")] double AltimeterFt,
    [property: Description("Distance of the mark, rounded away from the spot.")] double MarkM,
    [property: Description("The place itself, hook to go.")] double DistanceM,
    double HookHeightM, double LoadHeightM,
    [property: Description("Planned sink there.")] double SinkMs,
    [property: Description("Height that stopping that sink takes, reaction and lag included.")] double HeightLostM,
    [property: Description("Height kept over the ground.")] double ReserveM,
    [property: Description("Most that can still be stopped from the mark, rounded down to 50 ft/min.")] double? LargestSinkFtPerMin);

/// <summary>Reject gate.</summary>
public sealed record RejectDocument(
    [property: Description("Reading of the mark.")] double AltimeterFt,
    [property: Description("Distance of the mark, rounded away from the spot.")] double MarkM,
    [property: Description("The place itself, hook to go.")] double DistanceM,
    double HookHeightM, double LoadHeightM,
    [property: Description("Turn of the way out, right positive; 0 straight on.")] double TurnDeg,
    [property: Description("Least height of the load over what is under it on the way out.")] double LowestM);

/// <summary>A direction.</summary>
public sealed record SectorDocument(
    [property: Description("True course flown towards the spot.")] double CourseDeg,
    bool Allowed,
    [property: Description("Short name of what rules it out.")] string? Code,
    [property: Description("The same in a sentence.")] string? Why,
    [property: Description("Negative from behind.")] double HeadwindKt,
    [property: Description("Positive from left to right.")] double CrosswindKt);

/// <summary>Simulated flights.</summary>
public sealed record RobustnessDocument(
    int Flights,
    [property: Description("Load from the spot at contact: in half of the flights.")] double MissHalfM,
    [property: Description("In 95 of 100.")] double Miss95M,
    [property: Description("Past the spot.")] double AlongMeanM,
    double AlongSigmaM,
    [property: Description("Right of the spot.")] double AcrossMeanM,
    double AcrossSigmaM,
    [property: Description("Swing at contact: in half of the flights.")] double SwingHalfM,
    [property: Description("In 95 of 100.")] double Swing95M,
    [property: Description("Distance from the spot plus swing, mean of the worst tenth.")] double WorstTenthM,
    [property: Description("Share of flights in which the line went slack, 0 to 1.")] double SlackShare,
    [property: Description("What the scatter of the place comes from, largest first.")] IReadOnlyList<CauseDocument> Causes,
    [property: Description("Where the load ended in the first flights.")] IReadOnlyList<PlaceDocument> Places);

/// <summary>A cause of scatter with its share of the variance, 0 to 1.</summary>
public sealed record CauseDocument(string Cause, double Share);

/// <summary>A place in the frame of the course.</summary>
public sealed record PlaceDocument(double AlongM, double RightM);

/// <summary>Something to look at.</summary>
public sealed record ApproachCheckDocument(
    [property: Description("red, amber or green.")] string Colour,
    [property: Description("passes, toConfirm or fails.")] string Verdict,
    string Code, string What, string Text, string Source,
    [property: Description("Where in the job.")] string Path);

/// <summary>The way back with the bare line.</summary>
public sealed record EmptyLineDocument(
    double PeriodS,
    [property: Description("Air speed up to which the line keeps clear of the tail, rounded down to 5 kt; null when the tail's place was not entered.")] double? LargestSpeedKt,
    [property: Description("Angle of the line at the hook, from straight down.")] double TrailDeg,
    [property: Description("Air speed of that angle.")] double TrailAtKt,
    string Note,
    string Caution);

/// <summary>A sample of the path: time from the start mark; along, right, up from the spot, negative before it.</summary>
public sealed record PathSampleDocument(
    double TimeS,
    [property: Description("Load's distance to go.")] double DistanceM,
    [property: Description("Of the load's underside.")] double LoadHeightM,
    double HookAlongM, double HookRightM, double HookUpM,
    [property: Description("Of the load.")] double GroundSpeedMs,
    [property: Description("Of the hook.")] double SinkMs,
    [property: Description("Power required, percent of what is available.")] double? PowerPercent);
