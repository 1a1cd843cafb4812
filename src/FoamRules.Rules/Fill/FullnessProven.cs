using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.fullness-proven: at close-out foam is seen at the vent or the top, or enough of the cavities were sounded or scanned;
/// whatever was found not full counts against it.
/// </summary>
public sealed class FullnessProven : Requirement<FillFacts>
{
    private readonly Limit _sampled;
    private readonly Limit _full;

    /// <summary>The requirement as the rule sets state it.</summary>
    public FullnessProven(RequirementSpec spec)
        : base(spec)
    {
        _sampled = Need("sampled");
        _full = Need("full");
        _ = (_sampled.As<Ratio>(), _full.As<Ratio>());
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenVoid;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        if (bearer.Fill.Fullness is not { } proof)
        {
            return Verdict.Missing(bearer.Fill, nameof(CavityFill.Fullness));
        }

        var full = proof.ShareFull is { } share ? Hold(share, _full).Saying("not-full").On(proof, nameof(FullnessProof.ShareFull), share) : null;
        if (full is { Outcome: Outcome.NotMet })
        {
            return full;
        }

        if (proof.FoamSeenAtVent is true)
        {
            return Verdict.Met().On(proof, nameof(FullnessProof.FoamSeenAtVent));
        }

        if (proof.ShareSoundedOrScanned is not { } sampled)
        {
            return proof.FoamSeenAtVent is null
                ? Verdict.Missing(proof, nameof(FullnessProof.FoamSeenAtVent))
                : Verdict.Missing(proof, nameof(FullnessProof.ShareSoundedOrScanned));
        }

        var enough = Hold(sampled, _sampled).On(proof, nameof(FullnessProof.ShareSoundedOrScanned), sampled);
        // Too few were sounded, but whether foam was seen at the vent is not known: that could still prove it.
        return enough.Outcome == Outcome.Met
            ? full ?? Verdict.Missing(proof, nameof(FullnessProof.ShareFull))
            : proof.FoamSeenAtVent is null ? Verdict.Missing(proof, nameof(FullnessProof.FoamSeenAtVent)) : enough;
    }
}
