using FoamRules.Contracts.V1;
using FoamRules.Records;
using FoamRules.Records.Reviews;
using FoamRules.Records.Tests;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Pages.Tests;

/// <summary>Reviews that pages are looked at with, found by the names of their plans.</summary>
internal static class ExampleReviews
{
    public const string Held = "Held dock";
    public const string Revised = "Revised dock";
    public const string Signed = "Signed dock";
    public const string Checked = "Checked dock";
    public const string Closed = "Closed dock";

    public static readonly Caller Safety = new("Sam Safety", Role.SafetyOfficer);
    public static readonly Caller Crew = new("Cris Crew", Role.CrewLead);

    /// <summary>Puts them on record.</summary>
    public static async Task Prepare(ReviewDesk desk)
    {
        await Submitted(desk, Held, Plans.Held());
        await SignedOff(desk, Signed);

        var revised = await Submitted(desk, Revised, Plans.Held());
        var better = Plans.Sound();
        better.Name = Revised;
        await desk.Revise(new RevisePlanRequest { IdempotencyKey = Key(), ReviewId = revised.ReviewId, SeenVersion = revised.Sequence, Plan = better, Why = "the wall is stronger than we thought" }, Safety, default);

        var id = await SignedOff(desk, Checked);
        await Check(desk, id, Today());
        await Check(desk, id, null);

        id = await SignedOff(desk, Closed);
        var built = Plans.AsBuilt();
        built.Name = Closed;
        await desk.CloseOut(new CloseOutRequest { IdempotencyKey = Key(), ReviewId = id, SeenVersion = await Version(desk, id), Plan = built }, Crew, default);
    }

    /// <summary>A plan that is signed off.</summary>
    public static async Task<string> SignedOff(ReviewDesk desk, string name)
    {
        var receipt = await Submitted(desk, name, Plans.Sound());
        await desk.SignOff(new SignOffRequest { IdempotencyKey = Key(), ReviewId = receipt.ReviewId, SeenVersion = receipt.Sequence }, Safety, default);
        return receipt.ReviewId;
    }

    /// <summary>A plan under review.</summary>
    public static async Task<Receipt> Submitted(ReviewDesk desk, string name, Plan plan)
    {
        plan.Name = name;
        return (await desk.Submit(new SubmitPlanRequest { IdempotencyKey = Key(), Plan = plan }, Safety, default)).Receipt;
    }

    /// <summary>The newest version of a review.</summary>
    public static async Task<long> Version(ReviewDesk desk, string id) => (await desk.Get(new GetReviewRequest { ReviewId = id }, "", default)).Summary.Version;

    // Measured half an hour before the clock of these tests.
    private static Plan Today()
    {
        var (today, at) = (Plans.Today(), Timestamp.FromDateTimeOffset(PageSite.Now.AddMinutes(-30)));
        (today.Gear.RatioCheck.At, today.Gear.OutputCheck.At) = (at, at);
        foreach (var reading in today.Areas.SelectMany(area => area.Readings))
        {
            reading.At = at;
        }

        return today;
    }

    private static Task<CheckPreStartResponse> Check(ReviewDesk desk, string id, Plan? today) => desk.CheckPreStart(new CheckPreStartRequest { IdempotencyKey = Key(), ReviewId = id, Today = today }, Crew, default);

    private static string Key() => Guid.NewGuid().ToString("N");
}
