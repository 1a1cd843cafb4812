using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>A product's indices of surface burning against the limits of a code, by the test that the code names.</summary>
internal static class SurfaceBurningIndices
{
    /// <summary>Holds the indices against the limits <c>test</c>, <c>flame-spread</c> and <c>smoke-developed</c> of a group.</summary>
    /// <param name="sheet">The product.</param>
    /// <param name="code">The code's limits.</param>
    /// <param name="group">The group with its point, or empty.</param>
    /// <param name="smokeCounts">False where the code does not limit smoke.</param>
    public static Verdict Against(Product sheet, CodeLimits code, string group = "", bool smokeCounts = true)
    {
        if (sheet.SurfaceBurning is not { } burning)
        {
            return Verdict.Missing(sheet, nameof(Product.SurfaceBurning));
        }

        if (code.Find(group + "test") is not { } test)
        {
            return Part.NoTable();
        }

        if (NotBy(burning, test) is { } other)
        {
            return other;
        }

        var flame = Index(burning, nameof(SurfaceBurning.FlameSpread), burning.FlameSpread, code.Find(group + "flame-spread"), "flame-spread");
        var smoke = Index(burning, nameof(SurfaceBurning.SmokeDeveloped), burning.SmokeDeveloped, code.Find(group + "smoke-developed"), "smoke-developed");
        return smokeCounts ? Verdict.Worst([flame, smoke]) : flame;
    }

    /// <summary>Why the figures answer nothing: they are not by the test named; null where they are.</summary>
    public static Verdict? NotBy(SurfaceBurning burning, RuleSets.Limit named)
    {
        if (burning.Test is not { } test)
        {
            return Verdict.Missing(burning, nameof(SurfaceBurning.Test));
        }

        return named.Words.Contains(NameOf(test)) ? null : Verdict.Undetermined("other-test").On(burning, nameof(SurfaceBurning.Test))
            .With("test", NameOf(test)).With("named", Spoken.Or(named.Words.Select(Measure.OfText))).RestingOn(named);
    }

    private static Verdict Index(SurfaceBurning burning, string property, double? value, RuleSets.Limit? limit, string says) =>
        value is { } index ? Part.Hold(index, limit, says).On(burning, property, Measure.OfFactor(index)) : Verdict.Missing(burning, property);

    private static string NameOf(SurfaceBurningTest test) => test switch
    {
        SurfaceBurningTest.AstmE84 => "ASTM E84",
        SurfaceBurningTest.CanUlcS102 => "CAN/ULC-S102",
        SurfaceBurningTest.En135011 => "EN 13501-1",
        _ => throw new ArgumentOutOfRangeException(nameof(test), test, "a test of the contract"),
    };
}
