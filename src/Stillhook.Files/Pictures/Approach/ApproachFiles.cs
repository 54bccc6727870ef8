using Stillhook.Approaching;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>All pictures of an approach with their numbers, by file name.</summary>
public static class ApproachFiles
{
    /// <summary>File names and what stands in them, UTF-8.</summary>
    public static IEnumerable<(string Name, string Text)> Of(ApproachPlan plan, Surroundings? surroundings, DisplayUnits units)
    {
        yield return ("side.svg", StandaloneSvg.WithStyles(ApproachSideView.Draw(plan, surroundings, units)));
        yield return ("plan.svg", StandaloneSvg.WithStyles(ApproachPlanView.Draw(plan, surroundings, units)));
        yield return ("profile.svg", StandaloneSvg.WithStyles(ApproachProfile.Draw(plan, units)));
        yield return ("scatter.svg", StandaloneSvg.WithStyles(ApproachScatter.Draw(plan, surroundings, units)));
        yield return ("approach.csv", ApproachNumbers.Csv(plan));
    }
}
