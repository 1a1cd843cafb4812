using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>What one layer says of severities.</summary>
/// <param name="Layer">The rule set.</param>
/// <param name="Severities">What it says; null: nothing.</param>
/// <param name="RelaxedBy">The authority by which it lowers those of the layers on which it stands; null: it does not.</param>
internal sealed record SeveritiesSaid(string Layer, Severities? Severities, string? RelaxedBy);

/// <summary>
/// Makes one row of severities of what several layers say. At each stage the worst stands; a relaxation overrules, at the stages that
/// it names, the layers on which its own stands.
/// </summary>
internal static class SeverityMerge
{
    public static (Severities Severities, ImmutableDictionary<Stage, string> Layers) Merge(IReadOnlyList<SeveritiesSaid> lowestFirst, Layering layering)
    {
        var layers = ImmutableDictionary.CreateBuilder<Stage, string>();
        var quote = At(Stage.Quote);
        var plan = At(Stage.Plan);
        var preStart = At(Stage.PreStart);
        var closeOut = At(Stage.CloseOut);
        return (new Severities(quote, plan, preStart, closeOut), layers.ToImmutable());

        Severity? At(Stage stage)
        {
            if (lowestFirst is [var alone])
            {
                return alone.Severities?.At(stage) is { } only ? Of(only, alone) : null;
            }

            var said = lowestFirst.Where(one => one.Severities?.At(stage) is not null).ToList();
            var standing = said.Where(lower => !said.Exists(upper => upper.RelaxedBy is not null && layering.StandsOn(upper.Layer, lower.Layer))).ToList();
            if (standing.Count == 0)
            {
                return null;
            }

            var worst = standing.MaxBy(one => one.Severities!.At(stage))!;
            return Of(worst.Severities!.At(stage)!.Value, worst);

            Severity Of(Severity severity, SeveritiesSaid by)
            {
                layers[stage] = by.Layer;
                return severity;
            }
        }
    }
}
