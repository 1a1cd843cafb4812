using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>One part of a requirement: a value or an answer, and the key under which its break is said.</summary>
internal static class Part
{
    /// <summary>No rule set in force gives what the code says.</summary>
    public static Verdict NoTable() => Verdict.Undetermined("no-table");

    /// <summary>Holds a quantity against a limit that a layer may give.</summary>
    public static Verdict Hold(IQuantity value, Limit? limit, string says) =>
        limit is null ? NoTable() : Requirement<WorkFacts>.Hold(value, limit).Saying(says);

    /// <summary>Holds a bare number, such as an index.</summary>
    public static Verdict Hold(double value, Limit? limit, string says) => Hold(new Scalar(value, UnitsNet.Units.ScalarUnit.Amount), limit, says);

    /// <summary>Holds a field of the plan; undetermined where it is not given.</summary>
    public static Verdict Hold(PlanNode node, string property, IQuantity? value, Limit? limit, string says) =>
        value is null ? Verdict.Missing(node, property) : Hold(value, limit, says).On(node, property, value);

    /// <summary>A yes/no field that must say no.</summary>
    public static Verdict No(PlanNode node, string property, bool? answer, string says) => Answer.Yes(!answer, node, property, says);
}
