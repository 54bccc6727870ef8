using System.Text;

namespace Stillhook.Tests.App;

/// <summary>The program run inside the test's own process: the same entry point with the same words out, without the seconds that starting it takes. What writes bytes to standard output needs <see cref="StartedProgram"/>.</summary>
internal static class HostedProgram
{
    private static readonly Split Output = new(Console.Out), Errors = new(Console.Error);

    static HostedProgram()
    {
        Console.SetOut(Output);
        Console.SetError(Errors);
    }

    public static StartedProgram.Result Run(params string[] arguments)
    {
        StringWriter output = Output.Begin(), errors = Errors.Begin();
        try
        {
            int exitCode = (int)typeof(Program).Assembly.EntryPoint!.Invoke(null, [arguments])!;
            return new(exitCode, output.ToString(), errors.ToString());
        }
        finally
        {
            Output.End();
            Errors.End();
        }
    }

    /// <summary>Gives each test what its own run writes; tests run side by side.</summary>
    private sealed class Split(TextWriter otherwise) : TextWriter
    {
        private readonly AsyncLocal<StringWriter?> own = new();

        public override Encoding Encoding => Encoding.UTF8;

        public StringWriter Begin() => own.Value = new() { NewLine = "\n" };

        public void End() => own.Value = null;

        public override void Write(char value) => (own.Value ?? otherwise).Write(value);

        public override void Write(string? value) => (own.Value ?? otherwise).Write(value);

        public override void Write(char[] buffer, int index, int count) => (own.Value ?? otherwise).Write(buffer, index, count);

        public override void Flush() => otherwise.Flush();
    }
}
