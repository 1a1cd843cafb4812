using System.Text;
using FoamRules.Cli.Output;

namespace FoamRules.EndToEnd.Tests;

/// <summary>A standard output and a standard error for each call of the command line, though several are made at once in one process.</summary>
internal static class Screens
{
    private static readonly Screen Output = new(Console.Out), Errors = new(Console.Error);

    static Screens()
    {
        Console.SetOut(Output);
        Console.SetError(Errors);
        // Wherever the tests are run: what is called here writes to no terminal.
        (Terminal.HasOutput, Terminal.HasErrors) = (false, false);
    }

    /// <summary>What a call writes, and its exit code.</summary>
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
