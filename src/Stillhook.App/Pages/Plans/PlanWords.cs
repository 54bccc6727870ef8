using Stillhook.Planning;
using Stillhook.Planning.Ordering;

namespace Stillhook.App.Pages.Plans;

/// <summary>Words of the lift plan's page.</summary>
internal static class PlanWords
{
    public static string Of(CheckVerdict verdict) => verdict switch { CheckVerdict.Fails => "✕ Fails", CheckVerdict.ToConfirm => "? To confirm", _ => "✓ In order" };

    public static string Of(LoadVerdict verdict) => verdict switch { LoadVerdict.Lifts => "✓ Lifts", LoadVerdict.NotJudged => "? Not judged", _ => "✕ Does not lift" };

    /// <summary>What is known of an order.</summary>
    public static string Of(OrderPlan order)
    {
        string sooner = FormattableString.Invariant($"the best there is could end at most {100 * order.Gap:0.0} % sooner.");
        return order.Verdict switch
        {
            OrderVerdict.Proven => "No order of these loads ends sooner: proven.",
            OrderVerdict.CutOff => "Cut off by the clock, so it may differ next time; " + sooner,
            OrderVerdict.BestFound => "Best order found; " + sooner,
            OrderVerdict.Given => "The order set in the job file; no better one was looked for, and " + sooner,
            _ => "Found by the quick search; " + sooner,
        };
    }
}
