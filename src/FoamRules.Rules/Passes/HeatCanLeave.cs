using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.heat-can-leave: by calculation no point of the foam stays hot for much longer than in one pass at the data sheet's
/// maximum, put on in the place of any of the passes with what lies below it cold (calculation 4.3). Held over the whole
/// interval of the adiabatic rise. The computed peak is shown and never judged.
/// </summary>
public sealed class HeatCanLeave : Requirement<SprayFacts>
{
    private readonly Limit _times;
    private readonly HeatParameters _heat;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HeatCanLeave(RequirementSpec spec)
        : base(spec)
    {
        _times = Need("times-hot");
        _ = _times.Factor;
        _heat = new HeatParameters(spec.Parameters);
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        if (Verdict.Missing([.. Unknown(bearer)]) is { MissingFields.IsEmpty: false } missing)
        {
            return missing;
        }

        var rise = _heat.RiseOf(bearer.Sheet);
        if (!rise.HasValue)
        {
            return Verdict.OutOfRange(rise.Refusal!);
        }

        var spray = new SprayHeat(bearer, _heat);
        return Verdict.Worst(new[] { rise.Value.Low, rise.Value.Likely, rise.Value.High }.Distinct().Select(one => With(one, spray, bearer)).ToList())
            .On(bearer.Spray, nameof(SprayApplication.Passes)).On(bearer.Sheet, nameof(Product.MaxPassThickness), bearer.Sheet.MaxPassThickness!.Value);
    }

    private static IEnumerable<FieldRef> Unknown(SprayFacts bearer)
    {
        if (bearer.Spray.Passes.IsEmpty)
        {
            yield return new FieldRef(bearer.Spray, nameof(SprayApplication.Passes));
        }

        foreach (var unknown in SprayHeat.Unknown(bearer, bearer.Spray.Passes.Length))
        {
            yield return unknown;
        }

        if (bearer.Sheet.MaxPassThickness is null)
        {
            yield return new FieldRef(bearer.Sheet, nameof(Product.MaxPassThickness));
        }
    }

    private Verdict With(TemperatureDelta rise, SprayHeat spray, SprayFacts bearer)
    {
        var (count, maximum) = (bearer.Spray.Passes.Length, bearer.Sheet.MaxPassThickness!.Value);
        var planned = spray.AsPlanned(count, rise);
        var alone = Enumerable.Range(0, count).Select(below => spray.OnePass(maximum, below, rise)).ToList();
        if ((planned.Refusal ?? alone.Select(one => one.Refusal).FirstOrDefault(refusal => refusal is not null)) is { } refusal)
        {
            return Verdict.OutOfRange(refusal);
        }

        var longest = alone.MaxBy(one => one.Value.LongestHot.Seconds)!;
        if (longest.Value.StillHot)
        {
            return Verdict.OutOfRange(new Refusal("greatest thickness of one pass", Measure.Of(maximum), "passes that cool within 14 days", "the calculation ends there"));
        }

        var (hot, reference) = (planned.Value.LongestHot, longest.Value.LongestHot);
        var allowed = _times.Amounting(reference * _times.Factor);
        return Hold(hot, allowed).RestingOn(_heat.HotAbove).RestingOn(_heat.RiseInterval).Worked([.. planned.Steps, Compared(maximum, reference)])
            .With("hot", _heat.HotAbove.Value).With("rise", rise).With("maximum", maximum).With("reference", reference).With("peak", planned.Value.Peak);
    }

    private static WorkedStep Compared(Length maximum, Duration reference) => new(
        "time hot of one pass at the data sheet's maximum", "the same solution, one pass on cold foam or on the back, the longest",
        [new Term("d", "data sheet's maximum", Measure.Of(maximum))], Measure.Of(reference), "layered one-dimensional conduction, Crank-Nicolson");
}
