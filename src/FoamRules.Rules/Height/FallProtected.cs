using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>
/// height.fall-protection: from the height that the rule set gives for what people stand on, something keeps them from falling that
/// counts there. On a low-slope roof a warning line with a second system counts too, and on a narrow one a monitor alone.
/// </summary>
public sealed class FallProtected(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _surfaceFrom = spec.Limits["walking-surface.from"];
    private readonly Limit _onSurface = spec.Limits["walking-surface.protection"];
    private readonly Limit _roofFrom = spec.Limits["roof.from"];
    private readonly Limit _onRoof = spec.Limits["roof.protection"];
    private readonly Limit _lowSlope = spec.Limits["roof.low-slope"];
    private readonly Limit _withWarningLine = spec.Limits["roof.with-warning-line"];
    private readonly Limit _monitorWidth = spec.Limits["roof.width-for-monitor-alone"];
    private readonly Limit _scaffoldAbove = spec.Limits["scaffold.above"];
    private readonly Limit? _guardrailFrom = spec.Limits.GetValueOrDefault("scaffold.guardrail-from");
    private readonly Limit _onScaffold = spec.Limits["scaffold.protection"];
    private readonly Limit _inBoomLift = spec.Limits["boom-lift.protection"];
    private readonly Limit _ladderFrom = spec.Limits["ladder.from"];
    private readonly Limit _onLadder = spec.Limits["ladder.protection"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Fall;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (bearer.Area.Access is not { } access)
        {
            return Verdict.Missing(bearer.Area, nameof(WorkArea.Access));
        }

        return access.Kind switch
        {
            null => Verdict.Missing(access, nameof(Access.Kind)),
            AccessKind.BoomLift => Protected(access, _inBoomLift, "in a boom lift", "boom-lift"),
            AccessKind.Roof => FromHeight(access, _roofFrom, OnRoof(access)),
            AccessKind.Scaffold => OnScaffold(access),
            AccessKind.ScissorLift => AboveHeight(access, _scaffoldAbove, Protected(access, _onScaffold, "from a scissor lift", "scaffold")),
            AccessKind.Ladder => FromHeight(access, _ladderFrom, Protected(access, _onLadder, "from a ladder")),
            _ => FromHeight(access, _surfaceFrom, Protected(access, _onSurface, "from an edge")),
        };
    }

    private Verdict OnRoof(Access access)
    {
        var own = Protected(access, _onRoof, "from a roof");
        var line = access.Protection.Contains(FallProtection.WarningLine);
        var monitor = access.Protection.Contains(FallProtection.Monitor);
        if (own.Outcome == Outcome.Met || !(line || monitor))
        {
            return own;
        }

        if (access.RoofSlope is not { } slope)
        {
            return Verdict.Missing(access, nameof(Access.RoofSlope));
        }

        if (Hold(slope, _lowSlope).Outcome == Outcome.NotMet)
        {
            return own.Saying("steep-roof").On(access, nameof(Access.RoofSlope), slope).With("slope", slope).With("low-slope", _lowSlope.Value).RestingOn(_lowSlope);
        }

        if (line)
        {
            return HasOneOf(access, _withWarningLine)
                ? Verdict.Met()
                : own.Saying("warning-line-alone").With("second", Spoken.Of(_withWarningLine)).RestingOn(_withWarningLine);
        }

        if (access.RoofWidth is not { } width)
        {
            return Verdict.Missing(access, nameof(Access.RoofWidth));
        }

        return Hold(width, _monitorWidth).Outcome == Outcome.Met
            ? Verdict.Met().On(access, nameof(Access.RoofWidth), width)
            : own.Saying("wide-roof").On(access, nameof(Access.RoofWidth), width).With("width", width).With("widest", _monitorWidth.Value).RestingOn(_monitorWidth);
    }

    private Verdict OnScaffold(Access access)
    {
        var own = AboveHeight(access, _scaffoldAbove, Protected(access, _onScaffold, "from a scaffold", "scaffold"));
        return _guardrailFrom is { } from ? Verdict.Worst([own, FromHeight(access, from, Guarded(access))]) : own;
    }

    private static Verdict Guarded(Access access) => access.Protection.IsEmpty ? Verdict.Missing(access, nameof(Access.Protection))
        : (access.Protection.Contains(FallProtection.Guardrail) ? Verdict.Met() : Verdict.NotMet("scaffold-guardrail"))
            .On(access, nameof(Access.Protection)).With("protection", Spoken.Of<FallProtection>(access.Protection));

    // A rule says either "6 ft or more" or "more than 10 ft": which of the two is part of the rule, not of the figure.
    private static Verdict FromHeight(Access access, Limit from, Verdict protection) =>
        Needed(access, from, protection, height => Quantities.Compare(height, from.As<UnitsNet.Length>()) >= 0);

    private static Verdict AboveHeight(Access access, Limit above, Verdict protection) =>
        Needed(access, above, protection, height => Quantities.Compare(height, above.As<UnitsNet.Length>()) > 0);

    private static Verdict Needed(Access access, Limit height, Verdict protection, Func<UnitsNet.Length, bool> isHigh)
    {
        if (protection.Outcome == Outcome.Met)
        {
            return protection;
        }

        if (access.FallHeight is not { } fall)
        {
            return Verdict.Missing([new FieldRef(access, nameof(Access.FallHeight)), .. protection.MissingFields]);
        }

        var judged = isHigh(fall) ? protection : Verdict.Met();
        return judged.On(access, nameof(Access.FallHeight), fall)
            with
        { Value = Measure.Of(fall), Limit = height, Margin = Measure.Of(Quantities.Difference(height.As<UnitsNet.Length>(), fall)) };
    }

    private static Verdict Protected(Access access, Limit counts, string where, string notMet = "not-met")
    {
        if (access.Protection.IsEmpty)
        {
            return Verdict.Missing(access, nameof(Access.Protection));
        }

        var verdict = HasOneOf(access, counts) ? Verdict.Met() : Verdict.NotMet(notMet);
        return verdict.On(access, nameof(Access.Protection)).RestingOn(counts).With("where", Spoken.Word(where)).With("needed", Spoken.Of(counts))
            .With("protection", Spoken.Of<FallProtection>(access.Protection));
    }

    private static bool HasOneOf(Access access, Limit counts) => access.Protection.Any(protection => counts.Words.Contains(Word(protection)));

    private static string Word(FallProtection protection) => PathStep.FieldName(protection.ToString()).Replace('_', '-');
}
