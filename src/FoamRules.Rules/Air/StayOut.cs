using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>How long people without protection must stay out of an area after the last spraying, as far as it is known.</summary>
/// <param name="Longest">The longest time of those that are known; null where none is.</param>
/// <param name="Unknown">What must be given before the time is known in full; empty where it is.</param>
/// <param name="NeverClearsOf">The substance of which the air never clears with this ventilation; null where there is none.</param>
/// <param name="Refusal">Why a time could not be worked out; null where none was refused.</param>
/// <param name="Steps">How the time was worked out.</param>
public sealed record StayOut(Limit? Longest, ImmutableArray<FieldRef> Unknown, Measure? NeverClearsOf, Refusal? Refusal, ImmutableArray<WorkedStep> Steps)
{
    /// <summary>True where the longest time is known to be the longest.</summary>
    public bool IsKnown => Longest is not null && Unknown.IsEmpty && NeverClearsOf is null && Refusal is null;
}
