using FoamRules.Fuzz;

namespace FoamRules.Rules.Tests;

/// <summary>Inputs that once brought something but an answer or a refusal (tests/FoamRules.Fuzz/Kept).</summary>
public sealed class KeptInputTests
{
    [Fact]
    public void Each_is_answered_or_refused()
    {
        var kept = Doors.All.SelectMany(door => door.Kept().Select(kept => (Door: door, kept.File, kept.Input))).ToList();
        Assert.NotEmpty(kept);
        Assert.All(kept, one => Assert.Null(Record.Exception(() => one.Door.Enter(one.Input))));
    }
}
