using System.Text;

namespace FoamRules.Testing;

/// <summary>What a program answered.</summary>
/// <param name="Code">Its exit code.</param>
/// <param name="Output">Its standard output.</param>
/// <param name="Errors">Its standard error.</param>
public sealed record Ran(int Code, string Output, string Errors);

/// <summary>A standard output and a standard error for each call of the command line, though several are made at once in one process.</summary>
public static class Screens
{
    private static readonly Screen Output = new(Console.Out), Errors = new(Console.Error);

    static Screens()
    {
        Console.SetOut(Output);
        Console.SetError(Errors);
    }

    /// <summary>What a call answers.</summary>
    /// <param name="call">The call, which gives the exit code.</param>
    public static async Task<Ran> Of(Func<Task<int>> call)
    {
        // A writer belongs to the flow of its call: set here, it is gone where this method ends.
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter { NewLine = "\n" };
        (Output.Current, Errors.Current) = (TextWriter.Synchronized(output), TextWriter.Synchronized(errors));
        var code = await Task.Run(call);
        return new Ran(code, output.ToString(), errors.ToString());
    }

    private sealed class Screen(TextWriter others) : TextWriter
    {
        private readonly AsyncLocal<TextWriter?> _current = new();

        public TextWriter? Current
        {
            get => _current.Value;
            set => _current.Value = value;
        }

        public override Encoding Encoding => others.Encoding;

        public override void Write(char value) => (Current ?? others).Write(value);

        public override void Write(char[] buffer, int index, int count) => (Current ?? others).Write(buffer, index, count);

        public override void Write(string? value) => (Current ?? others).Write(value);
    }
}
