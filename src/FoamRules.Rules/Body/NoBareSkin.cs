using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.no-bare-skin: whoever meets liquid or aerosol wears a full suit, gloves of a listed material and boots; head and neck are
/// covered too, except where a person only handles drums. Trimming and drilling alone are not asked: body.trimming-protected and
/// body.eyes-covered judge them.
/// </summary>
public sealed class NoBareSkin : Requirement<PersonFacts>
{
    private readonly Limit _gloves;

    /// <summary>The requirement as the rule sets state it.</summary>
    public NoBareSkin(RequirementSpec spec)
        : base(spec) => _gloves = Need("gloves");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.SkinAndEyeContact;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => MeetsAerosol(bearer) || bearer.MayDo(CrewTask.Drums) ? null : "dry-tasks";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        if (bearer.Person.Clothing is not { } clothing)
        {
            return Verdict.Missing(bearer.Person, nameof(Person.Clothing));
        }

        return Verdict.Worst(
        [
            Answer.Yes(clothing.FullSuit, clothing, nameof(Clothing.FullSuit), "no-suit"),
            Gloves(clothing),
            Answer.Yes(clothing.Boots, clothing, nameof(Clothing.Boots), "no-boots"),
            MeetsAerosol(bearer) ? Answer.Yes(clothing.HeadCovered, clothing, nameof(Clothing.HeadCovered), "bare-head") : Verdict.Met(),
        ]);
    }

    private Verdict Gloves(Clothing clothing) => clothing.Gloves is { } material
        ? Answer.OneOf(Answer.Word(material), _gloves, "wrong-gloves").On(clothing, nameof(Clothing.Gloves))
        : Verdict.Missing(clothing, nameof(Clothing.Gloves));

    private static bool MeetsAerosol(PersonFacts person) => person.MayDo(CrewTask.Spray, CrewTask.Assist, CrewTask.Pour, CrewTask.CleanUp, CrewTask.Watch);
}
