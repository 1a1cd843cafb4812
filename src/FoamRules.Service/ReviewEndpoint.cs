using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using Grpc.Core;

namespace FoamRules.Service;

/// <summary>ReviewService: each method hands the request and the caller to the desk.</summary>
/// <param name="desk">Decides and puts on record.</param>
/// <param name="store">The record.</param>
/// <param name="engines">The engine in use.</param>
public sealed class ReviewEndpoint(ReviewDesk desk, RecordStore store, EngineSource engines) : ReviewService.ReviewServiceBase
{
    /// <inheritdoc/>
    public override Task<SubmitPlanResponse> SubmitPlan(SubmitPlanRequest request, ServerCallContext context) =>
        desk.Submit(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<RevisePlanResponse> RevisePlan(RevisePlanRequest request, ServerCallContext context) =>
        desk.Revise(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<SignOffResponse> SignOff(SignOffRequest request, ServerCallContext context) =>
        desk.SignOff(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override async Task<GetReviewResponse> GetReview(GetReviewRequest request, ServerCallContext context) =>
        new() { Review = await desk.Get(request, AskedLanguage.Of(context.GetHttpContext()), context.CancellationToken).ConfigureAwait(false) };

    /// <inheritdoc/>
    public override Task<ListReviewsResponse> ListReviews(ListReviewsRequest request, ServerCallContext context) =>
        new ReviewList(store).Find(request, context.CancellationToken);

    /// <inheritdoc/>
    public override Task<AddCommentResponse> AddComment(AddCommentRequest request, ServerCallContext context) =>
        desk.Comment(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<ReleaseHoldResponse> ReleaseHold(ReleaseHoldRequest request, ServerCallContext context) =>
        desk.Release(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<NoteCautionResponse> NoteCaution(NoteCautionRequest request, ServerCallContext context) =>
        desk.Note(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<CheckPreStartResponse> CheckPreStart(CheckPreStartRequest request, ServerCallContext context) =>
        desk.CheckPreStart(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<CloseOutResponse> CloseOut(CloseOutRequest request, ServerCallContext context) =>
        desk.CloseOut(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override Task<ReleaseReentryResponse> ReleaseReentry(ReleaseReentryRequest request, ServerCallContext context) =>
        desk.ReleaseReentry(request, ReviewInterceptor.CallerOf(context), context.CancellationToken);

    /// <inheritdoc/>
    public override async Task ReplayReviews(ReplayReviewsRequest request, IServerStreamWriter<ReplayReviewsResponse> responseStream, ServerCallContext context)
    {
        var replayer = new Replayer(store, engines.Current);
        await foreach (var replay in replayer.Replay(request.ReviewId.Length == 0 ? null : request.ReviewId, context.CancellationToken).ConfigureAwait(false))
        {
            await responseStream.WriteAsync(replay, context.CancellationToken).ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public override Task<VerifyLogResponse> VerifyLog(VerifyLogRequest request, ServerCallContext context) =>
        new LogVerifier(store).Verify(request.Known, context.CancellationToken);

    /// <inheritdoc/>
    public override async Task ExportLog(ExportLogRequest request, IServerStreamWriter<ExportLogResponse> responseStream, ServerCallContext context)
    {
        await foreach (var entry in store.Entries(request.After, request.ReviewId.Length == 0 ? null : request.ReviewId, context.CancellationToken).ConfigureAwait(false))
        {
            await responseStream.WriteAsync(LogExport.Of(entry), context.CancellationToken).ConfigureAwait(false);
        }
    }
}
