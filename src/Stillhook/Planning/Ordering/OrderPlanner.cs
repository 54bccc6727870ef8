namespace Stillhook.Planning.Ordering;

/// <summary>The order of the day's loads and its fuel: search, bound, solver where one is given, exact check, reasons, advice.</summary>
public static class OrderPlanner
{
    /// <summary>Plans the order.</summary>
    /// <remarks>
    /// Soonest finish first; of equal finishes the fewest refuellings, then the least fuel, then the given order. A proof is of the finish.
    /// Loads that can't be flown are left out with a reason and the rest is planned; where the day is too short, as many loads as found.
    /// </remarks>
    /// <param name="problem">The problem.</param>
    /// <param name="solver">Improves and proves; null: the search alone.</param>
    /// <param name="limits">How long the solver may take; null: <see cref="OrderLimits.Usual"/>.</param>
    /// <param name="cancellation">Ends the solver early; the best plan so far is returned.</param>
    public static OrderPlan Plan(OrderProblem problem, IOrderSolver? solver = null, OrderLimits? limits = null, CancellationToken cancellation = default)
    {
        OrderGrid grid = new(problem);
        List<string> notes = [];
        List<LeftOutLoad> leftOut = new OrderAdvice(grid).Impossible();
        int[] possible = [.. Enumerable.Range(0, grid.Loads).Except(leftOut.Select(l => l.Load))];
        if (OrderGroups.Contradict(grid, possible))
        {
            notes.Add("The groups can't stay together: what must come first runs both ways between two of them. Planned with groups mixed.");
            grid = new(problem with { Policy = problem.Policy with { GroupByDeliverySite = false } });
        }
        return new OrderPlanning(grid, possible, solver, limits ?? OrderLimits.Usual, notes, cancellation).Plan(leftOut);
    }

    /// <summary>An order that a person set, with its refuelling and breaks; null, with what breaks first, when it can't be flown as set.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Places of the loads in the problem's list; loads that can't be flown in any order are left out of it with their reasons.</param>
    /// <param name="breaks">What breaks first; empty when nothing does.</param>
    public static OrderPlan? AsGiven(OrderProblem problem, IReadOnlyList<int> order, out string breaks)
    {
        OrderGrid grid = new(problem);
        List<LeftOutLoad> leftOut = new OrderAdvice(grid).Impossible();
        int[] possible = [.. order.Except(leftOut.Select(l => l.Load))];
        TriedOrder tried = OrderTrial.Try(problem, possible);
        breaks = tried.FirstBroken?.Breaks ?? "";
        if (!tried.Holds)
            return null;
        double bound = OrderGrid.Minutes(new OrderBound(grid, possible, OrderGrid.Up(tried.Timeline.FinishMinute, OrderGrid.PerMinute)).Finish);
        return new()
        {
            Sequence = tried.Sequence, Timeline = tried.Timeline, Verdict = OrderVerdict.Given, BoundMinute = Math.Min(bound, tried.Timeline.FinishMinute), LeftOut = leftOut,
        };
    }
}

/// <summary>One planning, with what it knows so far.</summary>
internal sealed class OrderPlanning(
    OrderGrid grid, int[] possible, IOrderSolver? solver, OrderLimits limits, List<string> notes, CancellationToken cancellation)
{
    private const double EffortBeforeSolver = 8;

    private OrderSequence sequence = OrderSequence.Empty;
    private int bound;
    private OrderVerdict verdict = OrderVerdict.SearchOnly;

    public OrderPlan Plan(List<LeftOutLoad> leftOut)
    {
        sequence = OrderSearch.Find(grid, possible, solver is null ? 1 : EffortBeforeSolver);
        if (solver is not null && sequence.Lifts.Count < possible.Length)
            Ask(possible, hint: null);
        int[] flown = [.. sequence.Lifts.Select(l => l.Load).Order()];
        bound = Math.Max(bound, new OrderBound(grid, flown, Finish(sequence)).Finish);
        if (solver is not null && flown.Length > 0 && verdict == OrderVerdict.SearchOnly && Finish(sequence) > bound)
            Ask(flown, sequence);
        sequence = OrderMatching.Rearrange(grid, sequence);
        OrderTimeline timeline = OrderReasons.Add(grid, OrderSimulator.Run(grid, sequence));
        if (timeline.Broken is not null)
            throw new InvalidOperationException("The planned order breaks a rule: " + timeline.Broken.Text);
        int finish = Finish(sequence);
        return new()
        {
            Sequence = sequence, Timeline = timeline, Verdict = finish <= bound ? OrderVerdict.Proven : verdict,
            BoundMinute = OrderGrid.Minutes(Math.Min(bound, finish)), LeftOut = [.. leftOut.Concat(NoPlace(timeline)).OrderBy(l => l.Load)], Notes = notes,
        };
    }

    private void Ask(int[] loads, OrderSequence? hint)
    {
        OrderAnswer answer = solver!.Solve(OrderPart.Of(grid.Problem, loads), OrderPart.Into(hint, loads), limits, cancellation);
        if (answer.Outcome == OrderOutcome.Failed)
            notes.Add($"The order is the search's own: {answer.Reason}");
        else if (answer.Outcome == OrderOutcome.Infeasible && hint is null)
            notes.Add("Proven: not all loads that fit alone can be flown in this day.");
        else if (OrderPart.Back(answer.Sequence, loads) is OrderSequence found)
            Take(found, loads.Length);
        if (Contradicted(answer, loads.Length))
        {
            notes.Add("The solver contradicts an order that breaks no rule; its answer was not used.");
            return;
        }
        if (answer.Outcome is OrderOutcome.Failed or OrderOutcome.Infeasible or OrderOutcome.Unknown && hint is null || sequence.Lifts.Count < loads.Length)
            return;
        if (answer.BoundMinute is double minute && double.IsFinite(minute))
            bound = Math.Max(bound, OrderGrid.Up(minute, OrderGrid.PerMinute));
        verdict = answer.Outcome switch
        {
            OrderOutcome.Failed => OrderVerdict.SearchOnly,
            OrderOutcome.CutOff => OrderVerdict.CutOff,
            _ => OrderVerdict.BestFound,
        };
    }

    /// <summary>Whether an order of all the loads already in hand disproves what the solver claims.</summary>
    private bool Contradicted(OrderAnswer answer, int loads) => sequence.Lifts.Count == loads
        && (answer.Outcome == OrderOutcome.Infeasible || answer.BoundMinute is double minute && OrderGrid.Up(minute, OrderGrid.PerMinute) > Finish(sequence));

    /// <summary>Takes a solver's sequence if it flies all loads, breaks no rule and is better.</summary>
    private void Take(OrderSequence found, int loads)
    {
        OrderTimeline timeline = OrderSimulator.Run(grid, found);
        if (timeline.Broken is not null || found.Lifts.Count != loads)
        {
            notes.Add($"The solver's order was not used: {timeline.Broken?.Text ?? "loads are missing"}.");
            return;
        }
        OrderSequence trimmed = new OrderDecoder(grid).Decode([.. found.Lifts.Select(l => l.Load)]);
        foreach (OrderSequence candidate in new[] { found, trimmed })
            if (Score(candidate).CompareTo(Score(sequence)) < 0)
                sequence = candidate;
    }

    private OrderDecoder.Score Score(OrderSequence candidate)
    {
        OrderTimeline t = OrderSimulator.Run(grid, candidate);
        double taken = candidate.StartFuelKg + candidate.Lifts.Sum(l => l.UpliftBeforeKg);
        return new(candidate.Lifts.Count, OrderGrid.Up(t.FinishMinute, OrderGrid.PerMinute), t.Refuels, OrderGrid.Up(taken, OrderGrid.PerKg));
    }

    private int Finish(OrderSequence candidate) => OrderGrid.Up(OrderSimulator.Run(grid, candidate).FinishMinute, OrderGrid.PerMinute);

    private IEnumerable<LeftOutLoad> NoPlace(OrderTimeline timeline)
    {
        OrderAdvice advice = new(grid);
        HashSet<int> missing = [.. possible.Except(sequence.Lifts.Select(l => l.Load))];
        return missing.Order().Select(l => grid.Before[l].FirstOrDefault(missing.Contains, -1) is int other and >= 0
            ? advice.Waits(l, other) : advice.NoPlace(l, timeline.FinishMinute));
    }
}
