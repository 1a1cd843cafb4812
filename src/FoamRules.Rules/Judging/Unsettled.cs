using System.Collections.Immutable;

namespace FoamRules.Rules.Judging;

/// <summary>Judging while it is not known whether the requirement applies.</summary>
public static class Unsettled
{
    /// <summary>
    /// The verdict where everything is known that decides whether the requirement applies. Otherwise what is met stays met, and
    /// anything else is undetermined: it may not apply.
    /// </summary>
    /// <param name="verdict">The verdict as if the requirement applied.</param>
    /// <param name="unknown">The fields that would decide it and are not given.</param>
    public static Verdict OnceKnown(this Verdict verdict, IEnumerable<FieldRef> unknown)
    {
        var open = unknown.ToImmutableArray();
        return open.IsEmpty || verdict.Outcome == Model.Outcome.Met ? verdict : Verdict.Missing([.. open, .. verdict.MissingFields]);
    }
}
