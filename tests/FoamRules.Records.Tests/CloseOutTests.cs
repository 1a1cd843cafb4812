using FoamRules.Contracts.V1;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>The foam as built goes on record, whatever it is.</summary>
public sealed class CloseOutTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task The_foam_as_built_is_judged_compared_and_certified_from_the_record(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning.AddDays(2));
        var built = Plans.AsBuilt();
        built.Work.Single(work => work.Id == "office-wall").Spray.Thickness = new Length { Inches = 4 };
        var request = new CloseOutRequest { IdempotencyKey = "close", ReviewId = review, SeenVersion = 2, Plan = built };
        var closed = await reviews.Client.CloseOutAsync(request, RunningReviews.Crew);
        Assert.Equal(Stage.CloseOut, closed.Report.Stage);
        Assert.Equal("work[office-wall].spray.thickness", Assert.Single(closed.Differences).Path);
        var certificate = closed.Certificate;
        Assert.Equal((closed.Receipt, "Sam Safety", closed.Report.Disposition), (certificate.ClosedOut, certificate.SignedOff.Actor, certificate.Disposition));
        Assert.Equal(["office-wall", "posts"], certificate.Work.Select(work => work.Id).Order());
        Assert.Equal(["A-3107", "B-3107"], certificate.Work.Single(work => work.Id == "office-wall").Lots);
        Assert.Equal(
            closed.Report.Findings.Count(finding => finding.Severity is Severity.StopWork or Severity.HoldPoint),
            certificate.Open.Count);
        Assert.NotEmpty(certificate.Open);

        // What comes later does not change what was answered then.
        await reviews.Client.AddCommentAsync(new AddCommentRequest { IdempotencyKey = reviews.Key(), ReviewId = review, Text = "keys handed over" }, RunningReviews.Crew);
        Assert.Equal(closed, await reviews.Client.CloseOutAsync(request, RunningReviews.Crew));
        var record = await reviews.Get(review);
        Assert.True(record.Summary.ClosedOut);
        Assert.Equal(certificate, record.Certificate);
    }

    [Fact]
    public async Task A_closed_job_is_neither_revised_nor_signed_nor_started_and_can_be_closed_out_again_with_better_readings()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var first = (await reviews.Submit(Plans.Sound())).Receipt;
        var closed = (await Close(reviews, first, Plans.AsBuilt())).Receipt;
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "CLOSED_OUT", () => reviews.Revise(first.ReviewId, closed.Sequence, Plans.Sound()));
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "CLOSED_OUT", () => reviews.SignOff(closed));
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "CLOSED_OUT", () => reviews.PreStart(first.ReviewId, Plans.Today()));
        await RunningReviews.Refused(StatusCode.Aborted, "REVIEW_MOVED_ON", () => Close(reviews, first, Plans.AsBuilt()));
        var again = await Close(reviews, closed, Plans.AsBuilt());
        Assert.Equal(again.Receipt, (await reviews.Get(first.ReviewId)).Certificate.ClosedOut);
        // Nobody had signed: the certificate does not say so.
        Assert.Null(again.Certificate.SignedOff);
    }

    private static async Task<CloseOutResponse> Close(RunningReviews reviews, Receipt seen, Plan plan) =>
        await reviews.Client.CloseOutAsync(new CloseOutRequest { IdempotencyKey = reviews.Key(), ReviewId = seen.ReviewId, SeenVersion = seen.Sequence, Plan = plan }, RunningReviews.Crew);
}
