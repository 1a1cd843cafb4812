using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Service;

/// <summary>
/// Takes changed rule sets into use while the service runs. What counts is what stands in the files: it looks when the system
/// tells of a change, and every few seconds besides, since not every file system tells. A folder that has come to rest is
/// read in one go, checked whole, compiled and then swapped in; where anything is wrong with it, the old one stays.
/// </summary>
/// <param name="folder">The folder of the rule sets.</param>
/// <param name="engines">The engine in use.</param>
/// <param name="clock">Says when something was refused.</param>
/// <param name="log">The log.</param>
public sealed class RuleFolderWatcher(string folder, EngineSource engines, TimeProvider clock, ILogger<RuleFolderWatcher> log) : BackgroundService
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(2);

    // An editor or a copy writes file by file; the folder is read once two looks this far apart find the same.
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(300);

    private string _seen = engines.Current.Library.Digest;

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var told = new SemaphoreSlim(0, 1);
        using var watcher = Watch(told);
        while (!stoppingToken.IsCancellationRequested)
        {
            await told.WaitAsync(BetweenLooks, stoppingToken).ConfigureAwait(false);
            await Look(stoppingToken).ConfigureAwait(false);
        }
    }

    private async Task Look(CancellationToken cancellation)
    {
        try
        {
            var files = RuleSetFiles.Below(folder);
            if (DigestOf(files) == _seen)
            {
                return;
            }

            string before;
            do
            {
                before = DigestOf(files);
                await Task.Delay(Rest, clock, cancellation).ConfigureAwait(false);
                files = RuleSetFiles.Below(folder);
            }
            while (DigestOf(files) != before);

            _seen = before;
            Take(files);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // A folder that cannot be read just now is looked at again; it is told once.
            if (_seen != error.Message)
            {
                _seen = error.Message;
                Refuse([new Violation("", error.Message, "a folder that can be read", "mend it; it is looked at again")]);
            }
        }
    }

    private void Take(IReadOnlyList<RuleSetFiles> files)
    {
        var current = engines.Current;
        if (_seen == current.Library.Digest)
        {
            engines.Refuse(null);
            ServiceLog.RulesRestored(log);
            return;
        }

        try
        {
            if (RuleLibrary.Load(files, out var violations) is not { } library)
            {
                Refuse(violations);
                return;
            }

            var engine = new CheckEngine(library);
            engine.WarmUpLike(current);
            engines.Use(engine);
            ServiceLog.RulesTaken(log, string.Join(", ", library.RuleSets.Values.Select(set => $"{set.Id} {set.Version}")));
        }
        catch (RuleSetMismatchException error)
        {
            Refuse([new Violation("", error.Message, "rule sets that fit the requirements judged", "mend what is named")]);
        }
#pragma warning disable CA1031 // Whatever a folder holds, the service goes on with the rule sets it has.
        catch (Exception error)
#pragma warning restore CA1031
        {
            ServiceLog.RulesFailed(log, error);
            Refuse([new Violation("", $"a failure while reading: {error.Message}", "rule sets that can be read", "look into the log")]);
        }
    }

    private void Refuse(IReadOnlyList<Violation> violations)
    {
        engines.Refuse(new Refused(clock.GetUtcNow(), violations));
        ServiceLog.RulesRefused(log, violations.Count);
        foreach (var violation in violations)
        {
            ServiceLog.RulesViolation(log, violation.File ?? "", violation.Line, violation.Column, violation.ToString());
        }
    }

    private static string DigestOf(IEnumerable<RuleSetFiles> files) => RuleSetFiles.DigestOf(files.Select(set => (set.Id, set.Digest)));

    private FileSystemWatcher? Watch(SemaphoreSlim told)
    {
        try
        {
            var watcher = new FileSystemWatcher(folder) { IncludeSubdirectories = true };
            watcher.Changed += (_, _) => Tell();
            watcher.Created += (_, _) => Tell();
            watcher.Deleted += (_, _) => Tell();
            watcher.Renamed += (_, _) => Tell();
            watcher.EnableRaisingEvents = true;
            return watcher;
        }
        catch (Exception error) when (error is IOException or ArgumentException or UnauthorizedAccessException)
        {
            ServiceLog.RulesUntold(log, error.Message);
            return null;
        }

        void Tell()
        {
            try
            {
                told.Release();
            }
            catch (Exception error) when (error is SemaphoreFullException or ObjectDisposedException)
            {
                // It has been told already, or the service is stopping.
            }
        }
    }
}
