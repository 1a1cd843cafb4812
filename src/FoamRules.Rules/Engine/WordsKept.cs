using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>
/// Classes ask for their words by key, and a key that is gone would show only when a report needs it. So a general practice
/// that is to replace another must have every key that the other had.
/// </summary>
internal static class WordsKept
{
    /// <summary>Compares the general practice of two libraries.</summary>
    /// <param name="before">The one in use.</param>
    /// <param name="after">The one that is to replace it.</param>
    /// <exception cref="RuleSetMismatchException">Words are gone.</exception>
    public static void Check(RuleLibrary before, RuleLibrary after)
    {
        if (!before.RuleSets.TryGetValue(RuleLibrary.GeneralPractice, out var was) || !after.RuleSets.TryGetValue(RuleLibrary.GeneralPractice, out var will))
        {
            return;
        }

        var gone = was.Texts.Keys.Except(will.Texts.Keys).Select(key => $"texts.yaml: {key}").Concat(
            from entry in was.Requirements.Values
            let now = will.Requirements.GetValueOrDefault(entry.Id)
            where now is not null && entry.Declared is null
            from key in entry.Says.Keys.Except(now.Says.Keys).Select(key => $"says {key}").Concat(entry.NotApplicable.Keys.Except(now.NotApplicable.Keys).Select(key => $"not-applicable {key}"))
            select $"{entry.Id}: {key}");
        if (gone.ToList() is { Count: > 0 } missing)
        {
            throw new RuleSetMismatchException("words that reports need are gone", string.Join("; ", missing));
        }
    }
}
