using System.Text.Json;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

/// <summary>The solver's side of <see cref="OrderSolverProcess"/>: one problem in, one answer out, then the process ends.</summary>
public static class SolverChild
{
    /// <summary>Reads a problem, solves it, writes the answer.</summary>
    /// <param name="problem">Standard input.</param>
    /// <param name="answer">Standard output; nothing else may be written to it.</param>
    public static void Run(Stream problem, Stream answer)
    {
        OrderAnswer solved;
        try
        {
            OrderRequest request = JsonSerializer.Deserialize(problem, OrderJson.Default.OrderRequest) ?? throw new JsonException("no problem");
            solved = new CpSatOrderSolver().Solve(request.Problem, request.Hint, request.Limits, CancellationToken.None);
        }
        catch (Exception fault) when (fault is JsonException or ArgumentException or DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            solved = OrderAnswer.Failed((fault.InnerException ?? fault).Message);
        }
        JsonSerializer.Serialize(answer, solved, OrderJson.Default.OrderAnswer);
        answer.Flush();
    }
}
