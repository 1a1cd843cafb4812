using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Vent;

/// <summary>The holes that are drilled into the steel of a member: fill holes and vent holes, but no open joints.</summary>
internal static class DrilledHoles
{
    /// <summary>Why a cavity has no holes in a structural section, as a key; null where it has, or may have.</summary>
    public static string? WhyNone(CavityFill fill) => fill switch
    {
        { Section: null, Cavity: CavityKind.Frame or CavityKind.BlockCore or CavityKind.StudBay or CavityKind.PanelGap } => "no-structural-section",
        { FillHoles.Holes.IsEmpty: true, VentHoles.Holes.IsEmpty: true } => "no-holes",
        _ => null,
    };

    /// <summary>The holes of a fill; missing where a list or a diameter is not given.</summary>
    public static Derived<ImmutableArray<Hole>> Of(CavityFill fill)
    {
        var lists = Gaps.Of(
            fill.FillHoles is null ? Verdict.Missing(fill, nameof(CavityFill.FillHoles)) : null,
            fill.VentHoles is null ? Verdict.Missing(fill, nameof(CavityFill.VentHoles)) : null);
        ImmutableArray<Hole> drilled = [.. (fill.FillHoles?.Holes ?? []).Concat(fill.VentHoles?.Holes ?? []).Where(hole => hole is not { Diameter: null, OpenArea: not null })];
        var unmeasured = Gaps.Of(drilled.Where(hole => hole.Diameter is null).Select(hole => Verdict.Missing(hole, nameof(Hole.Diameter))));
        return Gaps.Of(lists, unmeasured) is { } gap ? Derived<ImmutableArray<Hole>>.Without(gap) : Derived<ImmutableArray<Hole>>.Of(drilled);
    }
}
