using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Judging;

/// <summary>Short ways to judge a yes or no, and a word against a list of allowed words.</summary>
public static class Answer
{
    /// <summary>Met where a field says yes, not met under a key where it says no, undetermined where it says nothing.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="node">The part of the plan.</param>
    /// <param name="property">The property, by <c>nameof</c>.</param>
    /// <param name="otherwise">The key of what is said where the answer is no.</param>
    public static Verdict Yes(bool? answer, PlanNode node, string property, string otherwise) =>
        answer is false ? Verdict.NotMet(otherwise).On(node, property) : Verdict.Confirmed(answer, node, property);

    /// <summary>
    /// Met where the limit's list has the word, not met under a key where it has not. Placeholders <c>found</c> and <c>allowed</c> give
    /// both as people read them.
    /// </summary>
    public static Verdict OneOf(string word, Limit limit, string otherwise) => Listed(limit.Words.Contains(word) ? Verdict.Met() : Verdict.NotMet(otherwise), word, limit);

    /// <summary>A verdict that rests on a list of words, with what was found and what is allowed.</summary>
    public static Verdict Listed(Verdict verdict, string found, Limit limit) => Listed(verdict, [found], limit);

    /// <summary>A verdict that rests on a list of words, with all that was found and what is allowed.</summary>
    public static Verdict Listed(Verdict verdict, IReadOnlyList<string> found, Limit limit) =>
        (verdict with { Value = Measure.OfText(string.Join(", ", found)), Limit = limit })
            .With("found", Spoken.List(found.Select(Plain))).With("allowed", Spoken.Or(limit.Words.Select(Plain)));

    /// <summary>A value of an enumeration as rule sets write it: <c>FullFacepiece</c> is <c>full-facepiece</c>.</summary>
    public static string Word(Enum value) => PathStep.FieldName(value.ToString()).Replace('_', '-');

    private static Measure Plain(string word) => Spoken.Word(word.Replace('-', ' '));
}
