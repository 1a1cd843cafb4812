using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using Set = FoamRules.Model.Respirator;

namespace FoamRules.Rules.Body;

/// <summary>The rule sets' table of assigned protection factors, under <c>apf.type.mode.facepiece</c>; a type without modes leaves the mode out.</summary>
internal sealed class RespiratorFactors(RequirementSpec spec)
{
    private const string Root = "apf.";

    private readonly ImmutableDictionary<RespiratorClass, double> _table = spec.Limits
        .Where(limit => limit.Key.StartsWith(Root, StringComparison.Ordinal))
        .ToImmutableDictionary(limit => ClassOf(limit.Key[Root.Length..].Split('.')), limit => limit.Value.Factor);

    /// <summary>The factor of a set whose type, mode and facepiece are given; refused where none is assigned.</summary>
    public Calculated<Scalar> Of(Set set) => Calculations.Respirator.AssignedProtectionFactor(_table, ClassOf(set));

    private RespiratorClass ClassOf(Set set)
    {
        var type = Answer.Word(set.Type!.Value);
        var mode = HasModes(set) ? Answer.Word(set.Mode!.Value) : "";
        var plain = new RespiratorClass(type, mode, Answer.Word(set.Facepiece!.Value));
        var proven = plain with { Facepiece = plain.Facepiece + "-with-test-evidence" };
        return set.HoodTestEvidence is true && _table.ContainsKey(proven) ? proven : plain;
    }

    /// <summary>True where the way in which the air comes decides the factor.</summary>
    public static bool HasModes(Set set) => set.Type is RespiratorType.SuppliedAir or RespiratorType.SelfContained;

    private static RespiratorClass ClassOf(string[] steps) =>
        steps.Length == 3 ? new RespiratorClass(steps[0], steps[1], steps[2]) : new RespiratorClass(steps[0], "", steps[1]);
}
