using System.Collections.Immutable;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>The cases of one requirement, on which its mutants are tried.</summary>
internal sealed class CaseBench
{
    private static readonly IReadOnlyList<IHazardRule> Hazards = HazardRules.Create();

    private ImmutableArray<CaseRun> _runs;

    public CaseBench(CaseFile file)
    {
        Requirement = file.Requirement;
        _runs = [.. file.Cases.Select(one => new CaseRun(one)).Where(run => run.Book.Requirements.ContainsKey(Requirement))];
        Specs = [.. _runs.Select(SpecOf).Distinct<RequirementSpec>(ReferenceEqualityComparer.Instance)];
    }

    public string Requirement { get; }

    /// <summary>The requirement as each rule book of its cases states it.</summary>
    public IReadOnlyList<RequirementSpec> Specs { get; }

    /// <summary>Every place of the requirement spoiled, one at a time.</summary>
    public IReadOnlyList<Mutant> Mutants()
    {
        var sound = Specs.ToDictionary(spec => spec, Make, ReferenceEqualityComparer.Instance as IEqualityComparer<RequirementSpec>);
        var wrong = _runs.Select(run => run.Mismatch(sound[SpecOf(run)], Hazards)).OfType<string>().ToList();
        Assert.True(wrong.Count == 0, $"the plain call does not say what the engine says: {string.Join("; ", wrong)}");
        var held = _runs.Select(run => run.Assess(sound[SpecOf(run)], Hazards)?.Verdict).Where(verdict => verdict is { Limit: not null, Value: not null })
            .ToLookup(verdict => (verdict!.Limit!.Name, verdict.Limit.Layer), verdict => verdict!.Value!);
        return [.. MutantMaker.All(Specs, held)];
    }

    /// <summary>True where the requirement cannot be made without a parameter.</summary>
    public bool Reads(string parameter)
    {
        try
        {
            _ = Make(Specs[0] with { Parameters = Specs[0].Parameters.Remove(parameter) });
            return false;
        }
        catch (RuleSetMismatchException)
        {
            return true;
        }
    }

    /// <summary>True where a case sees the mutant.</summary>
    public bool Sees(Mutant mutant)
    {
        var spoiled = new Dictionary<RequirementSpec, IRequirement?>(ReferenceEqualityComparer.Instance as IEqualityComparer<RequirementSpec>);
        foreach (var run in _runs)
        {
            var spec = SpecOf(run);
            if (!spoiled.TryGetValue(spec, out var requirement))
            {
                try
                {
                    spoiled[spec] = requirement = mutant.Change(spec) is { } changed ? mutant.Wrap(Make(changed)) : null;
                }
                catch (Exception refused) when (refused is RuleSetMismatchException or InvalidOperationException)
                {
                    // Such a rule set does not load.
                    return true;
                }
            }

            if (requirement is not null && run.Mismatch(requirement, Hazards) is not null)
            {
                // What sees one mutant often sees the next.
                _runs = [run, .. _runs.Where(other => other != run)];
                return true;
            }
        }

        return false;
    }

    private RequirementSpec SpecOf(CaseRun run) => run.Book.Requirements[Requirement];

    private static IRequirement Make(RequirementSpec spec) =>
        AllRequirements.Makers.TryGetValue(spec.Id, out var make) ? make(spec) : DeclaredRequirements.Make(spec, [.. Hazards]);
}
