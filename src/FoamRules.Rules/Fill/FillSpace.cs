using FoamRules.Model;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>One space that foam fills: a compartment, or the whole cavity where the plan lists no compartments.</summary>
/// <param name="Number">Its number, counted from 1 at the foot.</param>
/// <param name="From">Its lower end above the foot.</param>
/// <param name="To">Its upper end above the foot: the planned top of the foam.</param>
/// <param name="IsOnly">True where it is the only one of its cavity.</param>
public sealed record FillSpace(int Number, Length From, Length To, bool IsOnly)
{
    /// <summary>Its length.</summary>
    public Length Length => To - From;

    /// <summary>What people call it.</summary>
    public Measure Name => IsOnly ? Spoken.Word("the cavity") : Spoken.Of("compartment", $"compartment {Number}", ("number", Measure.OfCount(Number)));

    /// <summary>
    /// True where a height lies in it. The upper end belongs to it and the lower end does not: a hole at a cap opens the
    /// compartment below it.
    /// </summary>
    public bool Holds(Length height) => Quantities.Compare(height, From) > 0 && Quantities.Compare(height, To) <= 0;
}
