using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.eyes-covered: for each of a person's tasks the eyes are covered by one of the things that the rule sets list for it. The
/// respirator's facepiece counts while foam is worked; for trimming and drilling, when it may be off, only what the plan names as
/// eye protection counts.
/// </summary>
public sealed class EyesCovered : Requirement<PersonFacts>
{
    private readonly ImmutableDictionary<CrewTask, Limit> _covers;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EyesCovered(RequirementSpec spec)
        : base(spec) => _covers = Enum.GetValues<CrewTask>().ToImmutableDictionary(task => task, task => Need($"covers.{Answer.Word(task)}"));

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.SkinAndEyeContact;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer) => Verdict.Worst(Worn.Tasks(bearer).Select(task => AtTask(bearer.Person, task)));

    private Verdict AtTask(Person person, CrewTask task)
    {
        var worn = Covers(person, task).ToList();
        var limit = _covers[task];
        if (worn.Find(limit.Words.Contains) is { } cover)
        {
            return Answer.Listed(Verdict.Met(), cover, limit);
        }

        if (person.EyeProtection.IsEmpty)
        {
            return Verdict.Missing(person, nameof(Person.EyeProtection));
        }

        return Answer.Listed(Verdict.NotMet(), [.. worn.DefaultIfEmpty("nothing")], limit)
            .On(person, nameof(Person.EyeProtection)).With("task", Spoken.Of(task));
    }

    private static IEnumerable<string> Covers(Person person, CrewTask task)
    {
        foreach (var one in person.EyeProtection.Where(one => one != EyeProtection.None))
        {
            yield return Answer.Word(one);
        }

        if (person.EyeProtection.Contains(EyeProtection.Goggles) && person.EyeProtection.Contains(EyeProtection.FaceShield))
        {
            yield return "goggles-and-face-shield";
        }

        if (task is not (CrewTask.Trim or CrewTask.Drill)
            && person.Respirator is { Type: not RespiratorType.None, Facepiece: { } facepiece and (Facepiece.FullFacepiece or Facepiece.HelmetOrHood) })
        {
            yield return Answer.Word(facepiece);
        }
    }
}
