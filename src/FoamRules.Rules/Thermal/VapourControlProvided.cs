using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>
/// heat.vapour-control-provided: at its thickness the foam lets no more vapour through than the code or the designer asks for, or
/// a retarder that does is planned. Which class a climate asks for is the code's and the designer's to say.
/// </summary>
public sealed class VapourControlProvided : EnvelopeRequirement
{
    private readonly Limit _classI;
    private readonly Limit _classIi;
    private readonly Limit _classIii;

    /// <summary>The requirement as the rule sets state it.</summary>
    public VapourControlProvided(RequirementSpec spec)
        : base(spec)
    {
        (_classI, _classIi, _classIii) = (Need("class.i"), Need("class.ii"), Need("class.iii"));
        _ = (_classI.Factor, _classIi.Factor, _classIii.Factor, Find("where-silent")?.Factor);
    }

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => NoLayer(bearer)
        ?? (bearer.Item.Envelope is { RequiredVapourClass: VapourRetarderClass.None, RequiredPermeance: null } ? "none-asked" : null);

    private protected override Verdict Judge(WorkFacts work, Envelope envelope)
    {
        if (Asked(envelope) is not { } limit)
        {
            return Verdict.Missing(envelope, nameof(Envelope.RequiredVapourClass));
        }

        var foam = OfFoam(work, envelope, limit);
        if (foam.Outcome == Outcome.Met)
        {
            return foam;
        }

        var retarder = OfRetarder(envelope, limit);
        return retarder.Outcome == Outcome.Met || (retarder.Outcome == Outcome.Undetermined && foam.Outcome == Outcome.NotMet) ? retarder
            : foam.Outcome == Outcome.Undetermined ? Gaps.Of(foam, retarder.Outcome == Outcome.Undetermined ? retarder : null)!
            : foam;
    }

    // The tighter of a class and a figure, where both are asked for.
    private Limit? Asked(Envelope envelope)
    {
        var byClass = envelope.RequiredVapourClass switch
        {
            VapourRetarderClass.I => _classI,
            VapourRetarderClass.Ii => _classIi,
            VapourRetarderClass.Iii => _classIii,
            _ => null,
        };
        var byFigure = UsPerms.Of(envelope.RequiredPermeance) is { } perms
            ? PlanLimit.Of(envelope, nameof(Envelope.RequiredPermeance), new Scalar(perms, UnitsNet.Units.ScalarUnit.Amount), Tighter.Lower) : null;
        return byClass is null ? byFigure ?? Find("where-silent") : byFigure is null || byClass.Factor < byFigure.Factor ? byClass : byFigure;
    }

    private static Verdict OfFoam(WorkFacts work, Envelope envelope, Limit limit)
    {
        var foam = FoamLayer.Of(work, envelope);
        if (foam.Thickness.Gap is { } unknown)
        {
            return unknown;
        }

        var permeance = PermeanceOf(work.Sheet, foam);
        if (permeance.Gap is { } gap)
        {
            return gap;
        }

        return Hold(permeance.Value, limit).Worked(permeance.Steps).With("thickness", foam.Thickness.Value)
            .With("metric", Math.Round(UsPerms.InNanograms(permeance.Value)).ToString("0", System.Globalization.CultureInfo.InvariantCulture))
            .With("needed", Measure.AtLeast(foam.Thickness.Value * (permeance.Value / Math.Max(limit.Factor, double.Epsilon))));
    }

    // A layer of twice the thickness lets half through.
    private static Derived<double> PermeanceOf(Product sheet, FoamLayer foam)
    {
        var thickness = foam.Thickness.Value;
        if (UsPerms.Of(sheet.VapourPermeance) is { } tested)
        {
            return sheet.VapourPermeanceThickness is not { } at ? Derived<double>.Missing(sheet, nameof(Product.VapourPermeanceThickness))
                : thickness > Length.Zero ? Derived<double>.Of(tested * (at / thickness))
                : Derived<double>.Missing(sheet, nameof(Product.VapourPermeance));
        }

        if (foam.Layer?.VapourDiffusionFactor is not { } factor)
        {
            return Derived<double>.Missing(sheet, nameof(Product.VapourPermeance));
        }

        var permeance = Layers.Permeance(thickness * factor);
        return permeance.HasValue
            ? Derived<double>.Of(UsPerms.FromNanograms(permeance.Value), permeance.Steps)
            : Derived<double>.Without(Verdict.OutOfRange(permeance.Refusal!));
    }

    private Verdict OfRetarder(Envelope envelope, Limit limit)
    {
        if (envelope.VapourRetarder is not { } retarder)
        {
            return Verdict.Missing(envelope, nameof(Envelope.VapourRetarder));
        }

        if (retarder.Planned is not true)
        {
            return Verdict.Confirmed(retarder.Planned, retarder, nameof(VapourRetarder.Planned));
        }

        var perms = UsPerms.Of(retarder.Permeance) ?? retarder.Class switch
        {
            VapourRetarderClass.I => _classI.Factor,
            VapourRetarderClass.Ii => _classIi.Factor,
            VapourRetarderClass.Iii => _classIii.Factor,
            _ => (double?)null,
        };
        return perms is { } known ? Hold(known, limit).On(retarder, nameof(VapourRetarder.Permeance)) : Verdict.Missing(retarder, nameof(VapourRetarder.Class));
    }
}
