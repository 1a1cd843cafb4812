using System.Collections.Immutable;
using FoamRules.Contracts.V1;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Reviews;

/// <summary>What a reader looks for among reviews.</summary>
/// <param name="Request">The same for the record.</param>
/// <param name="Disposition">The word of the disposition; empty: any.</param>
/// <param name="Holds">yes, no or empty: with open holds, without, either.</param>
public sealed record ReviewSearch(ListReviewsRequest Request, string Disposition, string Holds)
{
    /// <summary>The dispositions by the words that stand in addresses.</summary>
    public static ImmutableArray<(string Word, Disposition Disposition)> Dispositions { get; } =
        [("stop", Contracts.V1.Disposition.Stop), ("hold", Contracts.V1.Disposition.Hold), ("cautions", Contracts.V1.Disposition.ProceedWithCautions), ("proceed", Contracts.V1.Disposition.Proceed)];

    /// <summary>True where anything narrows the list.</summary>
    public bool IsNarrow => Disposition.Length + Holds.Length + Request.Text.Length + Request.WorkDateFrom.Length + Request.WorkDateUntil.Length + Request.Requirement.Length > 0;

    /// <summary>Reads it from an address.</summary>
    public static ReviewSearch Read(IQueryCollection query)
    {
        var request = new ListReviewsRequest { Text = Of("text"), WorkDateFrom = Of("from"), WorkDateUntil = Of("until"), Requirement = Of("requirement"), PageToken = Of("page") };
        var known = Dispositions.FirstOrDefault(pair => pair.Word == Of("disposition"));
        request.Disposition = known.Disposition;
        if (Of("holds") is "yes" or "no")
        {
            request.OpenHolds = Of("holds") == "yes";
        }

        return new ReviewSearch(request, known.Word ?? "", request.HasOpenHolds ? Of("holds") : "");

        string Of(string name) => query[name].ToString().Trim();
    }

    /// <summary>The address of the next page.</summary>
    public string Next(string token) => "/reviews" + QueryString.Create(new Dictionary<string, string?>
    {
        ["text"] = Request.Text,
        ["from"] = Request.WorkDateFrom,
        ["until"] = Request.WorkDateUntil,
        ["requirement"] = Request.Requirement,
        ["disposition"] = Disposition,
        ["holds"] = Holds,
        ["page"] = token,
    });
}
