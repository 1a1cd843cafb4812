using FoamRules.Model;

namespace FoamRules.Exchange;

/// <summary>Tells a part of a plan where it stands. The property is set once, here, while the record is built.</summary>
internal static class NodePlace
{
    private static readonly Action<PlanNode, PathStep> Setter =
        typeof(PlanNode).GetProperty(nameof(PlanNode.Where))!.SetMethod!.CreateDelegate<Action<PlanNode, PathStep>>();

    public static void Set(object record, PathStep where) => Setter((PlanNode)record, where);
}
