using FoamRules.Contracts.V1;

namespace FoamRules.Records.Reviews;

/// <summary>The contract's names as people say them.</summary>
public static class Words
{
    /// <summary>A role.</summary>
    public static string Of(Role role) => role switch
    {
        Role.Office => "office",
        Role.SafetyOfficer => "safety officer",
        Role.CrewLead => "crew lead",
        Role.Reader => "reader",
        _ => "none",
    };

    /// <summary>How sure it is who acted.</summary>
    public static string Of(Identity identity) => identity switch
    {
        Identity.Stated => "stated",
        Identity.ApiKey => "by API key",
        Identity.Token => "by token",
        Identity.Certificate => "by certificate",
        _ => "unknown",
    };

    /// <summary>An act.</summary>
    public static string Of(ActKind kind) => kind switch
    {
        ActKind.Submitted => "submitted",
        ActKind.Revised => "revised",
        ActKind.SignedOff => "signed off",
        ActKind.Commented => "remarked",
        ActKind.HoldReleased => "released a hold",
        ActKind.CautionNoted => "noted a caution",
        ActKind.PreStartChecked => "checked before the start",
        ActKind.ClosedOut => "closed out",
        ActKind.ReentryReleased => "released an area for re-entry",
        _ => "unknown",
    };

    /// <summary>What was done, in a sentence.</summary>
    public static string Of(Act act) => act.ActCase switch
    {
        Act.ActOneofCase.Submitted => "submitted the plan",
        Act.ActOneofCase.Revised => $"revision {act.Revised.Revision}: {act.Revised.Why}",
        Act.ActOneofCase.SignedOff => $"signed off revision {act.SignedOff.Revision}{More(act.SignedOff.Remark)}",
        Act.ActOneofCase.Commented => act.Commented.Text,
        Act.ActOneofCase.HoldReleased => Of(act.HoldReleased),
        Act.ActOneofCase.CautionNoted => $"saw the caution {Of(act.CautionNoted.Finding)}{More(act.CautionNoted.Remark)}",
        Act.ActOneofCase.PreStartChecked => $"pre-start against revision {act.PreStartChecked.Revision}: {Of(act.PreStartChecked.Answer)}",
        Act.ActOneofCase.ClosedOut => "put the foam as built on record",
        Act.ActOneofCase.ReentryReleased => Of(act.ReentryReleased.Release),
        _ => "",
    };

    /// <summary>The answer to a pre-start check.</summary>
    public static string Of(PreStartAnswer answer) => answer switch
    {
        PreStartAnswer.Go => "go",
        PreStartAnswer.Hold => "hold",
        _ => "stop",
    };

    /// <summary>What a report comes to.</summary>
    public static string Of(Disposition disposition) => disposition switch
    {
        Disposition.Proceed => "proceed",
        Disposition.ProceedWithCautions => "proceed with cautions",
        Disposition.Hold => "hold",
        _ => "stop",
    };

    /// <summary>A finding, by what it is on.</summary>
    public static string Of(Finding finding) => finding.Subject.Id.Length == 0 ? finding.Requirement : $"{finding.Requirement} on {finding.Subject.Id}";

    private static string Of(ReentryRelease release)
    {
        var who = release.DecidedBy.Length == 0 ? release.ActingAs : $"{release.ActingAs} {release.DecidedBy} ({release.Reference})";
        var group = release.Group == ReentryGroup.Trades ? "other trades" : "occupants";
        return $"released {release.Area} for {group} as {who}; last foam {release.LastSprayAt.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z, not before {release.NotBefore.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z{More(release.Remark)}";
    }

    private static string Of(HoldRelease release)
    {
        var who = release.DecidedBy.Length == 0 ? release.ActingAs : $"{release.ActingAs} {release.DecidedBy} ({release.Reference})";
        return $"released {Of(release.Finding)} as {who} until {release.Until.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z: {release.Why}";
    }

    private static string More(string remark) => remark.Length == 0 ? "" : $": {remark}";
}
