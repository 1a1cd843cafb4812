using System.Collections.Immutable;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>The parameters that requirements share, moved either way: a case of one of the requirements that read it must see it.</summary>
internal static class ParameterMutants
{
    /// <summary>The name under which they stand beside the requirements.</summary>
    public const string Name = "parameters";

    /// <summary>The mutants, each with the requirements that read what it moves.</summary>
    public static IReadOnlyList<(Mutant Mutant, ImmutableArray<CaseBench> Readers)> Of(IReadOnlyCollection<CaseBench> benches)
    {
        // The steps to which remedies round are read by no requirement; the tests of the remedies hold them.
        var parameters = benches.SelectMany(bench => bench.Specs).SelectMany(spec => spec.Parameters.Values)
            .Where(limit => !limit.Name.StartsWith("remedy-steps.", StringComparison.Ordinal)).DistinctBy(limit => (limit.Name, limit.Layer)).ToList();
        var readers = parameters.Select(limit => limit.Name).Distinct().ToDictionary(name => name, name => benches.Where(bench => bench.Reads(name)).ToImmutableArray());
        return [.. from limit in parameters
                   from move in LimitMutants.Of(limit, [])
                   select (Mutant.OfSpec($"{limit.Name} of {limit.Layer}: {move.Name}", spec =>
                       spec.Parameters.GetValueOrDefault(limit.Name) is { } one && one.Layer == limit.Layer
                           ? spec with { Parameters = spec.Parameters.SetItem(limit.Name, move.Move(one)) } : null), readers[limit.Name])];
    }
}
