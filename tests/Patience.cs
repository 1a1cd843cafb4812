using System.Collections.Concurrent;
using System.Reflection;
using FoamRules.Testing;
using Xunit.v3;

[assembly: Patience]

namespace FoamRules.Testing;

/// <summary>
/// Ends the whole run where one test takes longer than any may, and names it: a test that waits for what never comes would otherwise stand
/// still without a word. It cannot be ended alone, since nothing in it is asked to end; the timeout of a single test leaves it running and is for tests that run one at a time.
/// </summary>
/// <remarks>Compiled into each test project, which has it for all its tests. How long a test took is no finding: the limit is many times the longest.</remarks>
[AttributeUsage(AttributeTargets.Assembly)]
internal sealed class PatienceAttribute : BeforeAfterTestAttribute
{
    // Asked for every case, a single test takes them all.
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(string.IsNullOrEmpty(Environment.GetEnvironmentVariable("EVERY_CASE")) ? 5 : 60);

    private static readonly ConcurrentDictionary<string, Timer> Running = new();

    public override void Before(MethodInfo methodUnderTest, IXunitTest test) =>
        Running[test.UniqueID] = new Timer(_ => End(test.TestDisplayName), null, Longest, Timeout.InfiniteTimeSpan);

    public override void After(MethodInfo methodUnderTest, IXunitTest test)
    {
        if (Running.TryRemove(test.UniqueID, out var timer))
        {
            timer.Dispose();
        }
    }

    private static void End(string test)
    {
        if (!System.Diagnostics.Debugger.IsAttached)
        {
            Environment.FailFast($"{test} has not ended in {Longest.TotalMinutes:0.##} minutes; the run is given up");
        }
    }
}
