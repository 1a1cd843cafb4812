using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;

namespace FoamRules.Remedies.Proposing;

/// <summary>The numbers of the fill that a finding is on.</summary>
internal static class FillOf
{
    /// <summary>The numbers; null where the finding is on something else, or the spaces to fill are not known.</summary>
    public static FillNumbers? Numbers(Situation situation) =>
        new JobFacts(situation.Plan).Work.OfType<FillFacts>().FirstOrDefault(fill => fill.Subject == situation.Finding.Subject) is { } facts
            && FillNumbers.Of(facts, new FillParameters(situation.Book.Parameters)) is { Spaces.Gap: null } numbers ? numbers : null;
}
