using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Records.Reviews;
using FoamRules.Rules.Engine;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>The release of an area for re-entry: what was seen there, and who may come back.</summary>
internal sealed class ReentryPage() : FactPage<ReentryView>("re-enter/{area}", "ReleaseReentry")
{
    /// <summary>The input for who is to come back.</summary>
    public const string Group = "group";

    protected override Task<(ReviewRecord? Review, Trouble? Trouble)> Begin(HttpContext http, string id) => ReviewReader.Get(http, id);

    protected override FactSheet? Ask(HttpContext http, ReviewRecord review, DateTimeOffset now) =>
        Index(http, review.Plan) is var area and >= 0 ? ReentryFacts.Of(review.Plan, review.Report.Units, area) : null;

    protected override Dictionary<string, object?> Besides(HttpContext http, ReviewRecord review) => new()
    {
        [nameof(ReentryView.Area)] = http.GetRouteValue("area"),
        [nameof(ReentryView.Roles)] = RolesFor(http, review.Plan),
    };

    protected override async Task<(string? Next, Trouble? Trouble)> Act(HttpContext http, SentForm sent, Plan plan, List<Violation> wrong)
    {
        var index = Index(http, plan);
        var area = plan.Areas[index];
        var last = $"areas[{index}].last_spray_at";
        if (sent[Group].Length == 0)
        {
            wrong.Add(Unanswered(sent, sent.Words["re-enter-for"]));
        }

        if (sent[last].Length == 0)
        {
            wrong.Add(Unanswered(sent, last));
        }

        if (wrong.Count > 0)
        {
            return (null, Unreadable(wrong));
        }

        var request = new ReleaseReentryRequest
        {
            IdempotencyKey = sent.Key,
            ReviewId = sent.Id,
            SeenVersion = sent.Seen,
            Area = area.Id,
            Group = sent[Group] switch { "trades" => ReentryGroup.Trades, "occupants" => ReentryGroup.Occupants, _ => ReentryGroup.Unspecified },
            LastSprayAt = area.LastSprayAt,
            AirborneLevels = { area.AirborneLevels },
            ActingAs = sent["acting_as"],
            DecidedBy = sent["decided_by"],
            Reference = sent["reference"],
            Remark = sent["remark"],
        };
        // What nobody has looked at is left out: it is neither yes nor no.
        if (area.Reentry is { HasCleaned: true })
        {
            request.Cleaned = area.Reentry.Cleaned;
        }

        if (area.Reentry is { HasCoversOff: true })
        {
            request.CoversOff = area.Reentry.CoversOff;
        }

        if (area.Reentry is { HasOdourRemains: true })
        {
            request.OdourRemains = area.Reentry.OdourRemains;
        }

        var (done, trouble) = await ReviewDoor.Ask(http, "ReleaseReentry", request, (desk, caller) => desk.ReleaseReentry(request, caller, http.RequestAborted)).ConfigureAwait(false);
        return (done is null ? null : $"/reviews/{sent.Id}?done={done.Receipt.Sequence}",
            trouble is null ? null : trouble with { Violations = [.. trouble.Violations.Select(violation => OfArea(violation, index))] });
    }

    private static Violation Unanswered(SentForm sent, string what) => new(what, sent.Words["re-enter-found"], sent.Words["re-enter-allowed"], sent.Words["re-enter-remedy"]);

    // In which roles this caller may release it, given a name and a paper where one is asked.
    private static IReadOnlyList<string> RolesFor(HttpContext http, Plan plan)
    {
        var engine = http.RequestServices.GetRequiredService<PlanDesk>().Engine;
        var read = PlanReader.ReadMessage(plan, new ReadOptions(default)).Plan;
        var book = read is null ? null : engine.BookFor(read, new CheckOptions());
        return book is null || WhoCalls.Of(http) is not { } caller ? []
            : [.. new[] { ReleaseRules.TradesReentry, ReleaseRules.OccupantsReentry }.SelectMany(id => (book.Requirements.GetValueOrDefault(id)?.Release ?? [])
                .Where(role => ReleaseRules.WhyNot(caller.Role, id, [role], role, "someone", "a paper") is null)).Distinct()];
    }

    // A field of the request that was asked as one of the area.
    private static Violation OfArea(Violation violation, int index) =>
        violation.Path == "last_spray_at" || violation.Path.StartsWith("airborne_levels[", StringComparison.Ordinal) ? violation with { Path = $"areas[{index}].{violation.Path}" } : violation;

    private static int Index(HttpContext http, Plan plan) => plan.Areas.ToList().FindIndex(area => area.Id == http.GetRouteValue("area") as string);
}
