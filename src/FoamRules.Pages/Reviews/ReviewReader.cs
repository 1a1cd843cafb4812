using FoamRules.Access;
using FoamRules.Contracts.V1;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Reviews;

/// <summary>Reads reviews for pages.</summary>
internal static class ReviewReader
{
    /// <summary>A review with the plan and report of one entry; 0: of the last that has them.</summary>
    public static async Task<(ReviewRecord? Review, Trouble? Trouble)> Get(HttpContext http, string id, long sequence = 0)
    {
        var request = new GetReviewRequest { ReviewId = id, Sequence = sequence };
        return await ReviewDoor.Ask(http, "GetReview", request, (desk, _) => desk.Get(request, AskedLanguage.Of(http), http.RequestAborted)).ConfigureAwait(false);
    }

    /// <summary>The entry of the newest revision that was signed off; 0: none was.</summary>
    public static long Signed(ReviewRecord review) => review.Summary.SignedRevision == 0 ? 0
        : review.History.Where(line => line.Receipt.Kind is ActKind.Submitted or ActKind.Revised).ElementAt(review.Summary.SignedRevision - 1).Receipt.Sequence;

    /// <summary>The entry of the plan as it was last carried out: the last check on site since the signature, else what was signed, else the last.</summary>
    public static long CarriedOut(ReviewRecord review)
    {
        var signature = review.History.LastOrDefault(line => line.Receipt.Kind == ActKind.SignedOff)?.Receipt.Sequence ?? long.MaxValue;
        return review.History.LastOrDefault(line => line.Receipt.Kind == ActKind.PreStartChecked && line.Receipt.Sequence > signature)?.Receipt.Sequence ?? Signed(review);
    }
}
