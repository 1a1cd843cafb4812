using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;

namespace FoamRules.Trial;

/// <summary>The plans that are sent: the examples.</summary>
internal static class TrialPlans
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Plan> All { get; } = [.. Directory.EnumerateFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal)
        .Select(file => PlanReader.ReadText(File.ReadAllText(file), file, new ReadOptions(DateTimeOffset.UnixEpoch)).Message!)];
}
