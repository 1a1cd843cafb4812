using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.hot-pipe-in-foam: no heat-sensitive pipe or cable gets a thicker pass than its maker allows; where the maker of CPVC
/// pipe is silent, than a published figure for the foam's kind. Other plastics have no such figure.
/// </summary>
public sealed class HotPipeInFoam(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _inClosedCell = spec.Limits["cpvc.closed-cell"];
    private readonly Limit _inOpenCell = spec.Limits["cpvc.open-cell"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(SprayFacts bearer) =>
        bearer.Spray.BuriedPipes is { } buried && buried.Pipes.All(pipe => pipe.Material == PipeMaterial.Metal) ? "no-pipes" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer) => bearer.Spray.BuriedPipes is { } buried
        ? Verdict.Worst(buried.Pipes.Where(pipe => pipe.Material != PipeMaterial.Metal).Select(pipe => OnePipe(pipe, bearer)))
        : Verdict.Missing(bearer.Spray, nameof(SprayApplication.BuriedPipes));

    private Verdict OnePipe(BuriedPipe pipe, SprayFacts bearer)
    {
        if (pipe.Material is not { } material)
        {
            return Verdict.Missing(pipe, nameof(BuriedPipe.Material));
        }

        if (LimitOf(pipe, bearer.Sheet) is not { } limit)
        {
            return material == PipeMaterial.Cpvc ? Verdict.Missing(bearer.Sheet, nameof(Product.Kind)) : Verdict.Missing(pipe, nameof(BuriedPipe.MakerLimit));
        }

        var word = material == PipeMaterial.Cpvc ? "CPVC" : "plastic";
        return Verdict.Worst(PassesOver(pipe, bearer).Select(over => over.Thickness is { } thickness
            ? Hold(thickness, limit).On(over.Node, over.Property, thickness).With("pipe", Spoken.Word(word))
            : Verdict.Missing(over.Node, over.Property)));
    }

    private Limit? LimitOf(BuriedPipe pipe, Product sheet) => (pipe, sheet) switch
    {
        ({ MakerLimit: { } own }, _) => PlanLimit.Of(pipe, nameof(BuriedPipe.MakerLimit), own, Tighter.Lower, SourceStatus.DataSheet),
        ({ Material: not PipeMaterial.Cpvc }, _) or (_, { Kind: null }) => null,
        (_, { Kind: FoamKind.OpenCellSpray }) => _inOpenCell,
        _ => _inClosedCell,
    };

    // The pass over the pipe where it is given; otherwise every pass of the work may be over it.
    private static IEnumerable<(PlanNode Node, Length? Thickness, string Property)> PassesOver(BuriedPipe pipe, SprayFacts bearer)
    {
        if (pipe.ThickestPassOverIt is not null || bearer.Spray.Passes.IsEmpty)
        {
            return [(pipe, pipe.ThickestPassOverIt, nameof(BuriedPipe.ThickestPassOverIt))];
        }

        return bearer.Passes.Select(pass => ((PlanNode)pass.Pass, pass.Thickness, pass.Property));
    }
}
