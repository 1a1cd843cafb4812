using FoamRules.Contracts.V1;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Every method for every role, against a table that is typed here by hand.</summary>
public sealed class PermissionTests
{
    // Office, safety officer, crew lead, reader.
    private static readonly Dictionary<string, string> Expected = new()
    {
        ["SubmitPlan"] = "yes yes no no",
        ["RevisePlan"] = "yes yes no no",
        ["SignOff"] = "no yes no no",
        ["GetReview"] = "yes yes yes yes",
        ["ListReviews"] = "yes yes yes yes",
        ["AddComment"] = "yes yes yes no",
        ["ReleaseHold"] = "yes yes yes no",
        ["NoteCaution"] = "yes yes yes no",
        ["CheckPreStart"] = "no yes yes no",
        ["CloseOut"] = "yes yes yes no",
        ["ReleaseReentry"] = "yes yes no no",
        ["ReplayReviews"] = "yes yes no yes",
        ["VerifyLog"] = "yes yes no yes",
        ["ExportLog"] = "yes yes no yes",
    };

    private static readonly string[] Roles = ["office", "safety-officer", "crew-lead", "reader"];

    [Fact]
    public async Task Each_method_answers_each_role_as_the_table_says()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var methods = ReviewService.Descriptor.Methods;
        Assert.Equal(Expected.Keys.Order(), methods.Select(method => method.Name).Order());
        var wrong = new List<string>();
        foreach (var method in methods)
        {
            for (var i = 0; i < Roles.Length; i++)
            {
                // An empty request: where the role may, it is refused for something else or answered.
                var status = await Call(reviews, method.Name, RunningReviews.Caller("Someone", Roles[i]));
                if ((status != StatusCode.PermissionDenied) != (Expected[method.Name].Split(' ')[i] == "yes"))
                {
                    wrong.Add($"{method.Name} as {Roles[i]}: {status}");
                }
            }
        }

        Assert.Empty(wrong);
        Assert.Equal(0, (await reviews.Verify()).Entries);
    }

    [Theory]
    [InlineData(null, "office")]
    [InlineData("  ", "office")]
    [InlineData("Someone", null)]
    [InlineData("Someone", "boss")]
    public async Task A_caller_who_does_not_say_who_or_in_which_role_is_not_served(string? name, string? role)
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var caller = new Metadata();
        if (name is not null)
        {
            caller.Add("x-actor", name);
        }

        if (role is not null)
        {
            caller.Add("x-role", role);
        }

        foreach (var method in ReviewService.Descriptor.Methods)
        {
            Assert.Equal(StatusCode.Unauthenticated, await Call(reviews, method.Name, caller));
        }
    }

    [Fact]
    public async Task A_name_in_any_letters_comes_as_bytes()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var caller = new Metadata { { "x-actor-bin", "Ингрид Ångström"u8.ToArray() }, { "x-role", "office" } };
        var submitted = await reviews.Client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = "k", Plan = Plans.Sound() }, caller);
        Assert.Equal("Ингрид Ångström", submitted.Receipt.Actor);
        Assert.Equal(StatusCode.Unauthenticated, await Call(reviews, "ListReviews", new Metadata { { "x-actor-bin", [0xFF, 0xFE] }, { "x-role", "office" } }));
    }

    [Fact]
    public void A_method_that_the_table_does_not_name_is_for_nobody() =>
        Assert.All(System.Enum.GetValues<Role>(), role => Assert.False(Permissions.May(role, "SomethingNew")));

    private static async Task<StatusCode> Call(RunningReviews reviews, string method, Metadata caller)
    {
        var client = reviews.Client;
        try
        {
            switch (method)
            {
                case "SubmitPlan": await client.SubmitPlanAsync(new SubmitPlanRequest(), caller); break;
                case "RevisePlan": await client.RevisePlanAsync(new RevisePlanRequest(), caller); break;
                case "SignOff": await client.SignOffAsync(new SignOffRequest(), caller); break;
                case "GetReview": await client.GetReviewAsync(new GetReviewRequest(), caller); break;
                case "ListReviews": await client.ListReviewsAsync(new ListReviewsRequest(), caller); break;
                case "AddComment": await client.AddCommentAsync(new AddCommentRequest(), caller); break;
                case "ReleaseHold": await client.ReleaseHoldAsync(new ReleaseHoldRequest(), caller); break;
                case "NoteCaution": await client.NoteCautionAsync(new NoteCautionRequest(), caller); break;
                case "CheckPreStart": await client.CheckPreStartAsync(new CheckPreStartRequest(), caller); break;
                case "CloseOut": await client.CloseOutAsync(new CloseOutRequest(), caller); break;
                case "ReleaseReentry": await client.ReleaseReentryAsync(new ReleaseReentryRequest(), caller); break;
                case "VerifyLog": await client.VerifyLogAsync(new VerifyLogRequest(), caller); break;
                case "ReplayReviews":
                    using (var replay = client.ReplayReviews(new ReplayReviewsRequest(), caller))
                    {
                        await replay.ResponseStream.MoveNext(CancellationToken.None);
                    }

                    break;
                case "ExportLog":
                    using (var export = client.ExportLog(new ExportLogRequest(), caller))
                    {
                        await export.ResponseStream.MoveNext(CancellationToken.None);
                    }

                    break;
                default:
                    throw new InvalidOperationException($"the test does not know {method}");
            }

            return StatusCode.OK;
        }
        catch (RpcException error)
        {
            return error.StatusCode;
        }
    }
}
