using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Rules.Judging;

/// <summary>One yes/no part of a requirement that has several.</summary>
/// <param name="Answer">The answer; null: not given.</param>
/// <param name="Node">The part of the plan.</param>
/// <param name="Property">The property, by <c>nameof</c>.</param>
/// <param name="What">What the part asks, in the words that a reader sees where it is denied.</param>
public sealed record Confirmation(bool? Answer, PlanNode Node, string Property, string What)
{
    /// <summary>Met where every part is confirmed; not met where any is denied, with <c>lacks</c> naming those; else undetermined.</summary>
    public static Verdict All(params ImmutableArray<Confirmation> parts)
    {
        var denied = parts.Where(part => part.Answer == false).ToList();
        if (denied.Count > 0)
        {
            var verdict = Verdict.NotMet().With("lacks", Spoken.List(denied.Select(part => Spoken.Word(part.What))));
            return denied.Aggregate(verdict, (so, part) => so.On(part.Node, part.Property));
        }

        var open = parts.Where(part => part.Answer is null).Select(part => new FieldRef(part.Node, part.Property)).ToImmutableArray();
        return open.IsEmpty ? parts.Aggregate(Verdict.Met(), (so, part) => so.On(part.Node, part.Property)) : Verdict.Missing(open);
    }
}
