using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>The health check warms the engine up at every probe.</summary>
public sealed class WarmUpTests
{
    [Fact]
    public void Only_the_first_call_compiles()
    {
        var engine = new CheckEngine(Repository.Engine.Library);
        engine.WarmUp();
        var before = GC.GetAllocatedBytesForCurrentThread();
        engine.WarmUp();
        // Less than a task takes that compiles on another thread.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 64);
    }
}
