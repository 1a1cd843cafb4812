using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>
/// heat.steel-bridge-stays-warm: a steel member through the insulation stays at or above the dew point inside. Foam in a tube
/// carries next to nothing beside the steel and cures nothing. Where the steel gets too cold, a wrap of its cold side is offered
/// first; a wrap of the warm side makes the steel under it colder and counts only where it is tight against vapour.
/// </summary>
public sealed class SteelBridgeStaysWarm : EnvelopeRequirement
{
    private readonly FillParameters _fill;
    private readonly Limit _dew;
    private readonly ThermalConductivity _steel;
    private readonly Length _wrapThickness;
    private readonly ThermalConductivity _wrapConductivity;

    /// <summary>The requirement as the rule sets state it.</summary>
    public SteelBridgeStaysWarm(RequirementSpec spec)
        : base(spec)
    {
        _fill = new FillParameters(spec.Parameters);
        _dew = Need("dew");
        _ = _dew.As<Ratio>();
        _steel = Need("steel").As<ThermalConductivity>();
        _wrapThickness = Need("wrap.thickness").As<Length>();
        _wrapConductivity = Need("wrap.conductivity").As<ThermalConductivity>();
    }

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => bearer.Item.Envelope?.SteelMembers is { Members.IsEmpty: true } ? "no-member" : null;

    private protected override Verdict Judge(WorkFacts work, Envelope envelope) => envelope.SteelMembers is { } members
        ? Verdict.Worst(members.Members.Select(member => Judge(work, envelope, member)))
        : Verdict.Missing(envelope, nameof(Envelope.SteelMembers));

    private Verdict Judge(WorkFacts work, Envelope envelope, SteelMember member)
    {
        var dewPoint = DewPoint(envelope);
        var bridge = BridgeOf(work, envelope, member);
        if (Gaps.Of(dewPoint.Gap, bridge.Gap) is { } gap)
        {
            return gap;
        }

        var found = bridge.Value.As(bridge.Value.Inside, bridge.Value.Outside);
        if (!found.HasValue)
        {
            return Verdict.OutOfRange(found.Refusal!);
        }

        var limit = _dew.Amounting(dewPoint.Value, Tighter.Higher);
        var (face, bare) = (Hold(found.Value.InsideFace, limit), Hold(found.Value.BareInside, limit));
        var tight = member.InsideWrap?.VapourTight;
        if (member.InsideWrap is not null && tight is null && face.Outcome != bare.Outcome)
        {
            return Verdict.Missing(member.InsideWrap, nameof(MemberWrap.VapourTight));
        }

        var verdict = (tight == true ? bare : face).Worked([.. found.Steps, .. dewPoint.Steps])
            .On(member, nameof(SteelMember.InsideLength), member.InsideLength!.Value)
            .With("member", Spoken.NameOr(member.Name, "the steel")).With("humidity", envelope.InsideHumidity!.Value).With("inside", envelope.InsideTemperature!.Value)
            .With("outside", envelope.OutsideTemperature!.Value);
        return verdict.Outcome == Outcome.NotMet ? Offering(verdict, bridge.Value, dewPoint.Value, tight == true) : verdict;
    }

    private Verdict Offering(Verdict verdict, Bridge bridge, Temperature least, bool tight)
    {
        var cold = SteelBridge.LeastWrap(
            along => bridge.As(bridge.Inside, bridge.Outside with { Wrap = Wrap(along) }), bridge.Outside.Exposed, result => tight ? result.BareInside : result.InsideFace, least);
        var warm = SteelBridge.LeastWrap(
            along => bridge.As(bridge.Inside with { Wrap = Wrap(along) }, bridge.Outside), bridge.Inside.Exposed, result => result.BareInside, least);
        if ((cold.Refusal ?? warm.Refusal) is { } refusal)
        {
            return Verdict.OutOfRange(refusal);
        }

        return verdict.Saying(cold.Value.Reaches ? "not-met" : "cold-wrap-not-enough").Worked(cold.Steps)
            .With("wrap", _wrapThickness)
            .With("cold-length", Least(cold.Value)).With("cold-steel", tight ? cold.Value.With.BareInside : cold.Value.With.InsideFace)
            .With("warm-length", Least(warm.Value)).With("warm-bare", warm.Value.With.BareInside).With("warm-under", warm.Value.With.InsideFace);
    }

    // Where no length is enough it is the steel's whole length, and no wrap can be longer.
    private static Measure Least(WrapNeeded wrap) => wrap.Reaches ? Measure.AtLeast(wrap.Along) : Measure.Of(wrap.Along);

    // A wrap of no length is no wrap.
    private SteelWrap? Wrap(Length along) => along > Length.Zero ? new SteelWrap(along, _wrapThickness, _wrapConductivity) : null;

    private Derived<Bridge> BridgeOf(WorkFacts work, Envelope envelope, SteelMember member)
    {
        var (area, perimeter, steps) = SectionOf(work, member);
        var (inside, outside) = (WrapOf(member.InsideWrap), WrapOf(member.OutsideWrap));
        var gap = Gaps.Of(
            area is null ? Verdict.Missing(member, nameof(SteelMember.SteelArea)) : null,
            perimeter is null ? Verdict.Missing(member, nameof(SteelMember.Perimeter)) : null,
            member.InsideLength is null ? Verdict.Missing(member, nameof(SteelMember.InsideLength)) : null,
            member.LengthInInsulation is null ? Verdict.Missing(member, nameof(SteelMember.LengthInInsulation)) : null,
            member.OutsideLength is null ? Verdict.Missing(member, nameof(SteelMember.OutsideLength)) : null,
            envelope.InsideTemperature is null ? Verdict.Missing(envelope, nameof(Envelope.InsideTemperature)) : null,
            envelope.OutsideTemperature is null ? Verdict.Missing(envelope, nameof(Envelope.OutsideTemperature)) : null,
            inside.Gap,
            outside.Gap);
        return gap is not null ? Derived<Bridge>.Without(gap) : Derived<Bridge>.Of(
            new Bridge(
                area!.Value,
                member.Conductivity ?? _steel,
                member.LengthInInsulation!.Value,
                new SteelSide(envelope.InsideTemperature!.Value, Films.AroundSteelInside(envelope), perimeter!.Value, member.InsideLength!.Value, inside.Value),
                new SteelSide(envelope.OutsideTemperature!.Value, Films.AroundSteelOutside(envelope), perimeter.Value, member.OutsideLength!.Value, outside.Value)),
            steps);
    }

    private (Area? Area, Length? Perimeter, ImmutableArray<WorkedStep> Steps) SectionOf(WorkFacts work, SteelMember member)
    {
        if (member is { SteelArea: not null, Perimeter: not null } || work is not FillFacts fill || FillNumbers.Of(fill, _fill).Section is not { Gap: null } section)
        {
            return (member.SteelArea, member.Perimeter, []);
        }

        return (member.SteelArea ?? section.Value.SteelArea, member.Perimeter ?? section.Value.Perimeter, section.Steps);
    }

    private static Derived<SteelWrap?> WrapOf(MemberWrap? wrap)
    {
        if (wrap is null)
        {
            return Derived<SteelWrap?>.Of(null);
        }

        return Gaps.Of(
            wrap.Along is null ? Verdict.Missing(wrap, nameof(MemberWrap.Along)) : null,
            wrap.Thickness is null ? Verdict.Missing(wrap, nameof(MemberWrap.Thickness)) : null,
            wrap.Conductivity is null ? Verdict.Missing(wrap, nameof(MemberWrap.Conductivity)) : null) is { } gap
            ? Derived<SteelWrap?>.Without(gap)
            : Derived<SteelWrap?>.Of(new SteelWrap(wrap.Along!.Value, wrap.Thickness!.Value, wrap.Conductivity!.Value));
    }

    private sealed record Bridge(Area Area, ThermalConductivity Conductivity, Length InInsulation, SteelSide Inside, SteelSide Outside)
    {
        public Calculated<SteelBridgeResult> As(SteelSide inside, SteelSide outside) => SteelBridge.Temperatures(Area, Conductivity, InInsulation, inside, outside);
    }
}
