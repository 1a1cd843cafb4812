using FoamRules.Contracts.V1;
using Said = FoamRules.Model.Said;

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

    /// <summary>What was done, in a sentence that can be said in another language; what people wrote stays as they wrote it.</summary>
    public static Said Of(Act act) => act.ActCase switch
    {
        Act.ActOneofCase.Submitted => (Said)"submitted the plan",
        Act.ActOneofCase.Revised => $"revision {act.Revised.Revision}: {act.Revised.Why}",
        Act.ActOneofCase.SignedOff => $"signed off revision {act.SignedOff.Revision}{More(act.SignedOff.Remark)}",
        Act.ActOneofCase.Commented => Said.Name(act.Commented.Text),
        Act.ActOneofCase.HoldReleased => Of(act.HoldReleased),
        Act.ActOneofCase.CautionNoted => $"saw the caution {Of(act.CautionNoted.Finding)}{More(act.CautionNoted.Remark)}",
        Act.ActOneofCase.PreStartChecked => $"pre-start against revision {act.PreStartChecked.Revision}: {(Said)Of(act.PreStartChecked.Answer)}",
        Act.ActOneofCase.ClosedOut => "put the foam as built on record",
        Act.ActOneofCase.ReentryReleased => Of(act.ReentryReleased.Release),
        _ => Said.Name(""),
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
    public static Said Of(Finding finding) => finding.Subject.Id.Length == 0 ? Said.Name(finding.Requirement) : (Said)$"{finding.Requirement} on {finding.Subject.Id}";

    private static Said Of(ReentryRelease release) =>
        $"released {release.Area} for {(Said)(release.Group == ReentryGroup.Trades ? "other trades" : "occupants")} as {Who(release.ActingAs, release.DecidedBy, release.Reference)}; last foam {release.LastSprayAt.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z, not before {release.NotBefore.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z{More(release.Remark)}";

    private static Said Of(HoldRelease release) =>
        $"released {Of(release.Finding)} as {Who(release.ActingAs, release.DecidedBy, release.Reference)} until {release.Until.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z: {release.Why}";

    private static Said Who(string actingAs, string decidedBy, string reference) => decidedBy.Length == 0 ? (Said)actingAs : $"{(Said)actingAs} {decidedBy} ({reference})";

    private static string More(string remark) => remark.Length == 0 ? "" : $": {remark}";
}
