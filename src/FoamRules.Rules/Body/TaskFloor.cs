using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>The least respirator that the rule sets ask for at a task, whatever is measured.</summary>
/// <param name="Facepiece">The facepieces that do.</param>
/// <param name="Air">The kinds of air that do; null: any.</param>
/// <param name="Factor">The least assigned protection factor.</param>
internal sealed record TaskFloor(Limit Facepiece, Limit? Air, Limit Factor)
{
    /// <summary>The floor of a task; null where the rule sets give none.</summary>
    /// <param name="spec">The requirement as the rule sets state it.</param>
    /// <param name="place"><c>indoors</c> or <c>outdoors</c>.</param>
    /// <param name="task">The task.</param>
    public static TaskFloor? Of(RequirementSpec spec, string place, CrewTask task)
    {
        var at = $"floor.{place}.{Answer.Word(task)}";
        return spec.Limits.GetValueOrDefault($"{at}.facepiece") is { } facepiece && spec.Limits.GetValueOrDefault($"{at}.factor") is { } factor
            ? new TaskFloor(facepiece, spec.Limits.GetValueOrDefault($"{at}.air"), factor)
            : null;
    }
}
