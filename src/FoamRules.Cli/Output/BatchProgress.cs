using Spectre.Console;

namespace FoamRules.Cli.Output;

/// <summary>
/// How far a batch is, as a bar with a count on a terminal. It is written to standard error, and nothing at all where that is no
/// terminal or where there is one plan only.
/// </summary>
internal sealed class BatchProgress : IDisposable
{
    private readonly TaskCompletionSource _done = new();
    private readonly Task? _bar;
    private readonly int _count;
    private int _checked;

    private BatchProgress(int count)
    {
        _count = count;
        if (count > 1 && Terminal.HasErrors)
        {
            _bar = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) })
                .Progress().AutoClear(true)
                .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn())
                .StartAsync(Show);
        }
    }

    /// <summary>True where the bar is on the terminal to which the reports go, too.</summary>
    public bool SharesTerminal => _bar is not null && Terminal.HasOutput;

    public static BatchProgress Start(int count) => new(count);

    /// <summary>One plan more is checked.</summary>
    public void Advance() => Advance(1);

    /// <summary>So many plans more are checked.</summary>
    public void Advance(int plans) => Interlocked.Add(ref _checked, plans);

    /// <summary>Takes the bar away.</summary>
    public void Finish()
    {
        _done.TrySetResult();
        _bar?.GetAwaiter().GetResult();
    }

    public void Dispose() => Finish();

    private async Task Show(ProgressContext context)
    {
        var task = context.AddTask(Text(), maxValue: _count);
        while (!_done.Task.IsCompleted)
        {
            task.Description = Text();
            task.Value = _checked;
            await Task.WhenAny(_done.Task, Task.Delay(TimeSpan.FromMilliseconds(100))).ConfigureAwait(false);
        }
    }

    private string Text() => $"{_checked} / {_count}";
}
