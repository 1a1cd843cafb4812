using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.heat-can-leave: the section and the mass of each pour are inside the data sheet's maximum; where the sheet is silent on
/// the section and it is wide, the supplier's written answer is on file. The height of a pour is judged by
/// fill.depth-per-pour-within-limit. The computed time hot (calculation 4.3) stands in the worked steps beside that of one sprayed
/// pass; it judges nothing and clears nothing.
/// </summary>
public sealed class HeatCanLeave : FillRequirement
{
    private readonly Limit _answerFrom, _comparedPass;
    private readonly HeatParameters _heat;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HeatCanLeave(RequirementSpec spec)
        : base(spec)
    {
        _answerFrom = Need("supplier-answer-from");
        _comparedPass = Need("compared-pass");
        _ = (_answerFrom.As<Length>(), _comparedPass.As<Length>());
        _heat = new HeatParameters(spec.Parameters);
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers) => Verdict.Worst([Width(numbers), Mass(numbers)]).Worked(TimeHot(numbers));

    // Of the tallest space, where all is known; a gap here is no finding.
    private ImmutableArray<WorkedStep> TimeHot(FillNumbers numbers)
    {
        if (numbers.Spaces.Gap is not null || numbers.Spaces.Value.IsEmpty)
        {
            return [];
        }

        var tallest = numbers.Spaces.Value.MaxBy(space => space.Length.Meters)!;
        var (pour, pass) = (FillHeat.Of(numbers, tallest, _heat), FillHeat.OfPass(numbers, _comparedPass.As<Length>(), _heat));
        return pour.Gap is not null || pass.Gap is not null ? [] :
        [
            .. pour.Steps,
            new WorkedStep(
                "time hot of one sprayed pass on a back that takes no heat, to compare", "one-dimensional conduction; clears nothing",
                [new Term("d", "thickness of the pass", _comparedPass.Value)], Measure.Of(pass.Value), _comparedPass.Source.Citation),
        ];
    }

    private Verdict Width(FillNumbers numbers)
    {
        var sheet = numbers.Facts.Sheet;
        if (numbers.InsideWidth.Gap is { } gap)
        {
            return gap;
        }

        var width = numbers.InsideWidth.Value;
        var field = numbers.Fill.Section is null ? nameof(CavityFill.InsideWidth) : nameof(CavityFill.Section);
        if (FromSheet(sheet, nameof(Product.MaxSectionWidth), sheet.MaxSectionWidth, Tighter.Lower) is { } widest)
        {
            return Hold(width, widest).Saying("too-wide").On(numbers.Fill, field).Worked(numbers.InsideWidth.Steps);
        }

        if (Quantities.Compare(width, _answerFrom.As<Length>()) < 0)
        {
            return Verdict.Met().On(numbers.Fill, field, width);
        }

        var answered = Verdict.Confirmed(sheet.SupplierAgreesToSection, sheet, nameof(Product.SupplierAgreesToSection)).On(numbers.Fill, field, width);
        return answered.Outcome == Outcome.NotMet
            ? answered.Saying("no-answer").With("width", width).With("from", _answerFrom.Value).RestingOn(_answerFrom).Worked(numbers.InsideWidth.Steps)
            : answered;
    }

    private static Verdict Mass(FillNumbers numbers)
    {
        var sheet = numbers.Facts.Sheet;
        if (FromSheet(sheet, nameof(Product.MaxPourMass), sheet.MaxPourMass, Tighter.Lower) is not { } most)
        {
            return Verdict.Met();
        }

        return InEachSpace(numbers, space =>
        {
            var shots = numbers.ShotsInto(space);
            return shots.Gap ?? Verdict.Worst(shots.Value.Select(shot =>
            {
                var mass = numbers.MassOf(shot.Time);
                return mass.Gap ?? Hold(mass.Value.High, most).Saying("too-much").On(shot.Shot, nameof(Shot.TriggerTime), shot.Time).Worked(mass.Steps);
            }));
        });
    }
}
