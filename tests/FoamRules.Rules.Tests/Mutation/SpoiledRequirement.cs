using System.Reflection;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>A requirement whose answer is turned round.</summary>
internal abstract class SpoiledRequirement(IRequirement sound) : IRequirement
{
    public RequirementSpec Spec => sound.Spec;

    public HazardKind Answers => sound.Answers;

    public bool MayRestOnPlan => sound.MayRestOnPlan;

    public Type BearerType => sound.BearerType;

    protected IRequirement Sound => sound;

    public bool Covers(Bearer bearer) => sound.Covers(bearer);

    public virtual bool IsAskedBy(IHazard<Bearer> hazard) => sound.IsAskedBy(hazard);

    public virtual string? ReasonNotAsked(Bearer bearer) => sound.ReasonNotAsked(bearer);

    public string? ReasonNotApplicable(Bearer bearer) => sound.ReasonNotApplicable(bearer);

    public abstract Assessment Assess(Bearer bearer);

    /// <summary>Met where it is not met, and the other way round.</summary>
    public sealed class Negated(IRequirement sound) : SpoiledRequirement(sound)
    {
        public override Assessment Assess(Bearer bearer)
        {
            var assessment = Sound.Assess(bearer);
            return assessment.Verdict is not { Outcome: Outcome.Met or Outcome.NotMet } verdict ? assessment
                : assessment with { Verdict = verdict with { Outcome = verdict.Outcome == Outcome.Met ? Outcome.NotMet : Outcome.Met } };
        }
    }

    /// <summary>Met where it cannot be judged: the worst mistake that a requirement can make.</summary>
    public sealed class UnknownIsMet(IRequirement sound) : SpoiledRequirement(sound)
    {
        public override Assessment Assess(Bearer bearer)
        {
            var assessment = Sound.Assess(bearer);
            return assessment.Verdict?.Outcome == Outcome.Undetermined ? assessment with { Verdict = Verdict.Met() } : assessment;
        }
    }

    /// <summary>Asked of every bearer that has the hazard, also where it does not apply.</summary>
    public sealed class AlwaysApplies(IRequirement sound) : SpoiledRequirement(sound)
    {
        private readonly MethodInfo _judge = sound.GetType().GetMethod(
            "Judge", BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public, [BearerOf(sound.GetType())])!;

        public override bool IsAskedBy(IHazard<Bearer> hazard) => hazard.Kind == Sound.Answers && Sound.Covers(hazard.Bearer);

        public override Assessment Assess(Bearer bearer)
        {
            if (Sound.ReasonNotAsked(bearer) == Requirement<Bearer>.NotAtThisStage)
            {
                return new Assessment(Sound, bearer, Verdict.NotApplicable(Requirement<Bearer>.NotAtThisStage), null);
            }

            try
            {
                return new Assessment(Sound, bearer, (Verdict)_judge.Invoke(Sound, [bearer])!, null);
            }
            catch (TargetInvocationException fault)
            {
                return new Assessment(Sound, bearer, null, fault.InnerException!.Message);
            }
        }

        private static Type BearerOf(Type requirement)
        {
            for (var type = requirement; ; type = type.BaseType!)
            {
                if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(Requirement<>))
                {
                    return type.GetGenericArguments()[0];
                }
            }
        }
    }

    /// <summary>Never asked.</summary>
    public sealed class NeverApplies(IRequirement sound) : SpoiledRequirement(sound)
    {
        public override bool IsAskedBy(IHazard<Bearer> hazard) => false;

        public override Assessment Assess(Bearer bearer) => throw new InvalidOperationException("it is never asked");
    }
}
