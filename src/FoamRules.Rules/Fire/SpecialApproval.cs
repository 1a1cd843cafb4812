using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>A fire test report that stands in for the code's own list, and whether it covers the work.</summary>
internal static class SpecialApproval
{
    private const string Report = "fire test report";

    /// <summary>True where the work relies on a report.</summary>
    public static bool IsUsed(WorkFacts work) => work.Fire.ReliesOnFireTest is not null;

    /// <summary>The report that the work relies on; null where it relies on none, or on one that the product does not list.</summary>
    public static FireTest? ReportUsed(WorkFacts work) =>
        work.Fire.ReliesOnFireTest is { } number && number >= 1 && number <= work.Sheet.FireTests.Length ? work.Sheet.FireTests[number - 1] : null;

    /// <summary>True for appendix X, which stands in for an ignition barrier only.</summary>
    public static bool IsForIgnitionBarrierOnly(WorkFacts work) => ReportUsed(work) is { Kind: FireTestKind.Ac377AppendixX };

    /// <summary>Met where the report's end use, substrate, density and thickness cover the work.</summary>
    public static Verdict Judge(WorkFacts work)
    {
        if (ReportUsed(work) is not { } test)
        {
            return Verdict.Missing(work.Sheet, nameof(Product.FireTests));
        }

        if (test.Kind == FireTestKind.Ac377AppendixX && !FoamPlace.IsAtticOrCrawl(work))
        {
            return FoamPlace.Of(work) is null
                ? Verdict.Missing(work.Fire, nameof(FireSituation.Location))
                : Verdict.NotMet("attics-only").On(test, nameof(FireTest.Kind));
        }

        return Verdict.Worst([
            Part.Yes(test, nameof(FireTest.EndUseMatches), test.EndUseMatches, "end-use"),
            Part.Yes(test, nameof(FireTest.SubstrateMatches), test.SubstrateMatches, "substrate"),
            DensityCovered(work, test),
            ConditionsKept(test),
            ThicknessCovered(work, test),
        ]);
    }

    private static Verdict DensityCovered(WorkFacts work, FireTest test) => test.Density is { } tested
        ? FoamDensity.Against(work, GivenLimit.Of(Report, nameof(FireTest.Density), tested, Tighter.Lower), "density")
        : Verdict.Missing(test, nameof(FireTest.Density));

    private static Verdict ThicknessCovered(WorkFacts work, FireTest test) => test.MaxThickness is { } most
        ? FoamThickness.Of(work).Against(GivenLimit.Of(Report, nameof(FireTest.MaxThickness), most, Tighter.Lower), "thickness")
        : Verdict.Missing(test, nameof(FireTest.MaxThickness));

    // Appendix X always has conditions, and they belong to the exception for attics and crawl spaces; another report may have none.
    private static Verdict ConditionsKept(FireTest test) => test is { ConditionsMet: false, Kind: not FireTestKind.Ac377AppendixX }
        ? Verdict.NotMet("conditions").On(test, nameof(FireTest.ConditionsMet))
        : Verdict.Met();
}
