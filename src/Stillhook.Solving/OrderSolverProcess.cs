using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

/// <summary>Runs the solver in a process of its own, so that a fault in its native code, a hang or a missing library can't take the program down.</summary>
/// <param name="command">Program that runs <see cref="SolverChild.Run"/> on its standard input and output.</param>
/// <param name="arguments">Its arguments.</param>
public sealed class OrderSolverProcess(string command, IReadOnlyList<string> arguments) : IOrderSolver
{
    private const int MostAnswerBytes = 4_000_000;

    /// <summary>Seconds beyond the wall limit for starting the process and reading the answer.</summary>
    public double GraceSeconds { get; init; } = 5;

    /// <inheritdoc/>
    public OrderAnswer Solve(OrderProblem problem, OrderSequence? hint, OrderLimits limits, CancellationToken cancellation)
    {
        using Process child = new() { StartInfo = StartInfo() };
        using CancellationTokenSource guard = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        guard.CancelAfter(TimeSpan.FromSeconds(limits.WallSeconds + GraceSeconds));
        try
        {
            child.Start();
            // On a thread of its own: the caller may be one whose context waits for this very answer.
            return Task.Run(() => Talk(child, new(problem, hint, limits), guard.Token), CancellationToken.None).GetAwaiter().GetResult();
        }
        catch (OperationCanceledException)
        {
            return OrderAnswer.Failed(cancellation.IsCancellationRequested ? "the solver was stopped" : Text($"the solver gave no answer in {limits.WallSeconds + GraceSeconds:0.#} s"));
        }
        catch (Exception fault) when (fault is Win32Exception or IOException or InvalidOperationException)
        {
            return OrderAnswer.Failed($"the solver could not be run: {fault.Message}");
        }
        finally
        {
            End(child);
        }
    }

    private ProcessStartInfo StartInfo()
    {
        ProcessStartInfo info = new(command) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false, CreateNoWindow = true };
        foreach (string argument in arguments)
            info.ArgumentList.Add(argument);
        // The child lives for seconds and its loops are native code: compile fast, not well.
        info.Environment["DOTNET_TC_QuickJitForLoops"] = "1";
        return info;
    }

    private static async Task<OrderAnswer> Talk(Process child, OrderRequest request, CancellationToken stop)
    {
        Task<byte[]> answer = ReadAll(child.StandardOutput.BaseStream, stop);
        Task errors = child.StandardError.BaseStream.CopyToAsync(Stream.Null, stop);
        try
        {
            await JsonSerializer.SerializeAsync(child.StandardInput.BaseStream, request, OrderJson.Default.OrderRequest, stop);
            child.StandardInput.Close();
        }
        catch (IOException)
        {
            // It ended before it read everything; its exit code below says more.
        }
        byte[] bytes = await answer;
        await errors;
        await child.WaitForExitAsync(stop);
        return child.ExitCode == 0 ? Read(bytes) : OrderAnswer.Failed(Text($"the solver's process ended with code {child.ExitCode}"));
    }

    private static async Task<byte[]> ReadAll(Stream stream, CancellationToken stop)
    {
        using MemoryStream all = new();
        byte[] buffer = new byte[16384];
        for (int read; (read = await stream.ReadAsync(buffer, stop)) > 0;)
            if (all.Length < MostAnswerBytes)
                all.Write(buffer, 0, read);
        return all.ToArray();
    }

    private static OrderAnswer Read(byte[] bytes)
    {
        try
        {
            OrderAnswer? answer = JsonSerializer.Deserialize(bytes, OrderJson.Default.OrderAnswer);
            return answer is not null && Sound(answer) ? answer : OrderAnswer.Failed("the solver's answer can't be read");
        }
        catch (JsonException)
        {
            return OrderAnswer.Failed("the solver's answer can't be read");
        }
    }

    private static bool Sound(OrderAnswer answer) =>
        Enum.IsDefined(answer.Outcome) && (answer.BoundMinute is null || double.IsFinite(answer.BoundMinute.Value))
        && (answer.Sequence is null || answer.Sequence.Lifts is not null && double.IsFinite(answer.Sequence.StartFuelKg) && answer.Sequence.Lifts.All(l => double.IsFinite(l.UpliftBeforeKg)));

    private static void End(Process child)
    {
        try
        {
            if (!child.HasExited)
                child.Kill(entireProcessTree: true);
        }
        catch (Exception fault) when (fault is InvalidOperationException or Win32Exception)
        {
            // Never started, or gone in this moment.
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
