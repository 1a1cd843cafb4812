using FoamRules.Contracts.V1;
using FoamRules.Records.Reviews;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Holds are released by those whom the finding names, for as long as they say, and as long as nothing changes.</summary>
public sealed class ReleaseTests
{
    private static readonly string[] AllNamed = ["competent person", "safety officer", "engineer of record", "authority having jurisdiction", "owner"];

    // Caller, release role, topic; what must come out with a name and a paper, and without.
    public static TheoryData<Role, string, string, bool, bool> Table { get; } = new()
    {
        { Role.SafetyOfficer, "safety officer", "fill", true, true },
        { Role.SafetyOfficer, "safety officer", "body", true, true },
        { Role.SafetyOfficer, "competent person", "air", true, false },
        { Role.SafetyOfficer, "engineer of record", "fill", true, false },
        { Role.SafetyOfficer, "authority having jurisdiction", "fire", true, false },
        { Role.SafetyOfficer, "owner", "site", true, false },
        { Role.Office, "safety officer", "fill", false, false },
        { Role.Office, "competent person", "fill", false, false },
        { Role.Office, "engineer of record", "fill", true, false },
        { Role.Office, "authority having jurisdiction", "fire", true, false },
        { Role.Office, "owner", "site", true, false },
        { Role.CrewLead, "competent person", "site", true, false },
        { Role.CrewLead, "competent person", "body", false, false },
        { Role.CrewLead, "competent person", "air", false, false },
        { Role.CrewLead, "competent person", "height", false, false },
        { Role.CrewLead, "safety officer", "site", false, false },
        { Role.CrewLead, "engineer of record", "fill", false, false },
        { Role.CrewLead, "authority having jurisdiction", "fire", false, false },
        { Role.CrewLead, "owner", "site", false, false },
        { Role.Reader, "safety officer", "site", false, false },
        { Role.Reader, "competent person", "site", false, false },
        { Role.Reader, "engineer of record", "site", false, false },
        { Role.Reader, "authority having jurisdiction", "site", false, false },
        { Role.Reader, "owner", "site", false, false },
    };

    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Table))]
    public void Who_may_release_as_whom_is_one_table(Role caller, string actingAs, string topic, bool onPaper, bool byWord)
    {
        Assert.Equal(onPaper, ReleaseRules.WhyNot(caller, $"{topic}.some-requirement", AllNamed, actingAs, "Pat Paper", "letter of 2 April") is null);
        Assert.Equal(byWord, ReleaseRules.WhyNot(caller, $"{topic}.some-requirement", AllNamed, actingAs, "", "") is null);
        Assert.NotNull(ReleaseRules.WhyNot(caller, $"{topic}.some-requirement", ["somebody else"], actingAs, "Pat Paper", "letter"));
        Assert.NotNull(ReleaseRules.WhyNot(caller, $"{topic}.some-requirement", [], actingAs, "Pat Paper", "letter"));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_release_says_who_in_which_role_why_and_until_when_and_is_given_once(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Held());
        var request = reviews.WallRelease(submitted.Receipt);
        (request.ActingAs, request.DecidedBy, request.Reference) = ("engineer of record", "Eli Engineer", "letter of 9 April");
        var released = await reviews.Release(request, RunningReviews.Office);
        Assert.Equal(released, await reviews.Release(request, RunningReviews.Office));
        var record = await reviews.Get(submitted.Receipt.ReviewId);
        Assert.Empty(record.OpenHolds);
        var release = Assert.Single(record.Releases);
        Assert.Equal(("engineer of record", "Eli Engineer", "letter of 9 April", "walls are braced outside"), (release.ActingAs, release.DecidedBy, release.Reference, release.Why));
        Assert.Equal(("Olga Office", request.Until), (release.Receipt.Actor, release.Until));
        Assert.Equal(submitted.Report.Findings.Single(finding => finding.Requirement == request.Requirement), release.Finding);
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "HOLD_RELEASED_ALREADY", () => reviews.Release(reviews.WallRelease(released.Receipt), RunningReviews.Safety));
    }

    [Fact]
    public async Task A_release_that_the_finding_or_the_clock_does_not_allow_is_refused()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var seen = (await reviews.Submit(Plans.Held())).Receipt;
        var past = reviews.WallRelease(seen);
        past.Until = Timestamp.FromDateTimeOffset(reviews.Clock.GetUtcNow());
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", () => reviews.Release(past, RunningReviews.Safety));
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => reviews.Release(reviews.WallRelease(seen), RunningReviews.Crew));
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => reviews.Release(reviews.WallRelease(seen), RunningReviews.Office));
        var owner = reviews.WallRelease(seen);
        (owner.ActingAs, owner.DecidedBy, owner.Reference) = ("owner", "Ona Owner", "mail");
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => reviews.Release(owner, RunningReviews.Safety));
        var elsewhere = reviews.WallRelease(seen);
        elsewhere.Subject.Id = "office-wall";
        await RunningReviews.Refused(StatusCode.NotFound, "NO_FINDING", () => reviews.Release(elsewhere, RunningReviews.Safety));
        Assert.Equal(1, (await reviews.Verify()).Entries);
    }

    [Fact]
    public async Task A_release_runs_out_and_does_not_outlive_a_change_of_what_it_was_given_for()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Held());
        var review = submitted.Receipt.ReviewId;
        var released = await reviews.Release(reviews.WallRelease(submitted.Receipt), RunningReviews.Safety);

        // A revision that changes something else leaves it standing; one that changes the value takes it away.
        var other = Plans.Held();
        other.ResponsiblePerson = "someone else";
        var revised = await reviews.Revise(review, released.Receipt.Sequence, other);
        Assert.Empty((await reviews.Get(review)).OpenHolds);
        other.Work.Single(work => work.Id == "posts").CavityFill.WallHolds = new Pressure { PoundsForcePerSquareInch = 3.9 };
        await reviews.Revise(review, revised.Receipt.Sequence, other);
        Assert.Single((await reviews.Get(review)).OpenHolds);

        var again = await reviews.Submit(Plans.Held());
        await reviews.Release(reviews.WallRelease(again.Receipt), RunningReviews.Safety);
        reviews.Clock.Set(reviews.Clock.GetUtcNow().AddDays(10));
        Assert.Single((await reviews.Get(again.Receipt.ReviewId)).OpenHolds);
    }
}
