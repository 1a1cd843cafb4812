using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using Level = UnitsNet.Level;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.ears-covered: the noise dose of a person's day is within what the rule sets allow, or hearing protection is worn
/// (calculation 4.13). A rule set in force may carry a table of the law besides the recommended limit; breaking only the
/// recommended one is then a lighter tier. The plan gives the loudest level alone, so quieter parts of the day are not counted;
/// how much a protector takes off is not judged.
/// </summary>
public sealed class EarsCovered : Requirement<PersonFacts>
{
    private const string Day = "the loudest work of the day";

    private readonly Limit _recommendedLevel;
    private readonly Limit? _loudest;
    private readonly NoiseRule _recommended;
    private readonly NoiseRule? _law;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EarsCovered(RequirementSpec spec)
        : base(spec)
    {
        _recommendedLevel = Need("recommended.level");
        _ = Need("recommended.dose").As<Ratio>();
        _recommended = new NoiseRule(
            _recommendedLevel.As<Level>(), Need("recommended.time").As<Duration>(), Need("recommended.exchange").As<Level>(), null, [], null, null, _recommendedLevel.Source.Citation);
        _loudest = Find("law.loudest");
        _law = _loudest is null ? null : Law(_loudest);
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Strain;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var person = bearer.Person;
        if (person.HearingProtection is true)
        {
            return Verdict.Met().On(person, nameof(Person.HearingProtection));
        }

        if (person is not { NoiseLevel: { } level, NoiseTime: { } time })
        {
            return Verdict.Missing([.. Unknown(person)]);
        }

        var exposure = new NoiseExposure(Day, level, time);
        var byLaw = _law is null ? null : Against(_law, exposure, Need("law.dose"));
        var verdict = byLaw is null || byLaw.Outcome == Outcome.Met ? Recommended(exposure, byLaw is not null) : byLaw;
        verdict = verdict.On(person, nameof(Person.NoiseLevel), level).On(person, nameof(Person.NoiseTime), time).With("level", level).With("time", time);
        // Loud for certain and protected perhaps: as pressing as loud and unprotected.
        return verdict.Outcome == Outcome.NotMet && person.HearingProtection is null
            ? Verdict.Missing(person, nameof(Person.HearingProtection)).AtTier(verdict.Tier ?? "loud").Worked(verdict.Steps)
            : verdict;
    }

    private static IEnumerable<FieldRef> Unknown(Person person)
    {
        if (person.NoiseLevel is null)
        {
            yield return new FieldRef(person, nameof(Person.NoiseLevel));
        }

        if (person.NoiseTime is null)
        {
            yield return new FieldRef(person, nameof(Person.NoiseTime));
        }
    }

    private Verdict Recommended(NoiseExposure exposure, bool lawKept)
    {
        var verdict = Against(_recommended, exposure, Need("recommended.dose")).RestingOn(_recommendedLevel);
        return lawKept && verdict.Outcome == Outcome.NotMet ? verdict.AtTier("recommended") : verdict;
    }

    private Verdict Against(NoiseRule rule, NoiseExposure exposure, Limit allowed)
    {
        var dose = NoiseDose.Dose([exposure], rule);
        if (!dose.HasValue)
        {
            return Verdict.OutOfRange(dose.Refusal!);
        }

        return dose.Value.Dose is { } share
            ? Hold(Ratio.FromPercent(share.Percent), allowed).Worked(dose.Steps)
            : Hold(exposure.Level, _loudest!).Saying("too-loud").Worked(dose.Steps);
    }

    // The rows stand in the rule set as row-1, row-2 and on; the first is the criterion.
    private NoiseRule Law(Limit loudest)
    {
        var rows = ImmutableArray.CreateBuilder<NoiseTableRow>();
        while (Find($"law.table.row-{rows.Count + 1}.level") is { } level)
        {
            rows.Add(new NoiseTableRow(level.As<Level>(), Need($"law.table.row-{rows.Count + 1}.time").As<Duration>()));
        }

        var criterion = rows.Count > 0 ? rows[0] : throw new RuleSetMismatchException(Spec.Id, "law.loudest without law.table.row-1");
        _ = Need("law.dose").As<Ratio>();
        return new NoiseRule(criterion.Level, criterion.Hours, Need("law.exchange").As<Level>(), null, rows.ToImmutable(), loudest.As<Level>(), null, loudest.Source.Citation);
    }
}
