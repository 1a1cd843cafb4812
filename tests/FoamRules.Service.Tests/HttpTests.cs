using System.Text.Json.Nodes;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Exchange.Calculating;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;
using Grpc.Core;

namespace FoamRules.Service.Tests;

/// <summary>HTTP with JSON answers what gRPC answers.</summary>
public sealed class HttpTests(RunningWeb web) : IClassFixture<RunningWeb>
{
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    public static TheoryData<string> Requirements { get; } = [.. CaseFiles.Read().Select(file => file.Requirement)];

    public static TheoryData<string> BadPlans { get; } = [.. BadPlan.Read().Select(bad => bad.Says)];

    public static TheoryData<string> Calculations { get; } = [.. CalculationExamples.Names];

    public static TheoryData<string> Plans { get; } = [.. Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(file => Path.GetFileNameWithoutExtension(file)!)];

    [Theory]
    [MemberData(nameof(Requirements))]
    public async Task A_requirement_says_over_http_what_its_cases_expect(string requirement)
    {
        // All cases go through the engine and over gRPC; the first that is met and the first that is not show that this door says the same.
        var cases = CaseFiles.Read().Single(file => file.Requirement == requirement).Firsts().ToList();
        var lines = cases.Select((one, i) => new JsonObject { ["sequence"] = i, ["plan"] = WithTime(one.PlanJson) }.ToJsonString());
        var answers = (await web.Answer(HttpMethod.Post, "/v1/plans:check-many", string.Join('\n', lines), "application/x-ndjson")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Parse<CheckPlansResponse>).ToList();
        Assert.Equal(cases.Count, answers.Count);
        Assert.Empty(answers.Select(answer => CaseCheck.Mismatch(cases[(int)answer.Sequence], ReportMapper.ToReport(answer.Report))).OfType<string>());
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task A_plan_as_json_or_as_yaml_gets_the_report_that_grpc_gives(string name)
    {
        var yaml = File.ReadAllText(Repository.PathOf("shared", "plans", name + ".yaml"));
        var plan = PlanReader.ReadText(yaml, null, Now).Message!;
        var request = new CheckPlanRequest { Plan = plan, Units = DisplayUnits.Si, Language = "es" };
        var expected = (await new PlanCheckService.PlanCheckServiceClient(web.Channel).CheckPlanAsync(request)).Report;
        Assert.Equal(expected, Parse<CheckPlanResponse>(await web.Answer(HttpMethod.Post, "/v1/plans:check?units=si&language=es", yaml, "application/yaml")).Report);
        Assert.Equal(expected, Parse<CheckPlanResponse>(await web.Answer(HttpMethod.Post, "/v1/plans:check?units=DISPLAY_UNITS_SI&language=es", JsonFormatter.Default.Format(plan), "application/json; charset=utf-8")).Report);
    }

    [Theory]
    [MemberData(nameof(BadPlans))]
    public async Task A_bad_plan_is_a_problem_with_every_field_and_its_line(string says)
    {
        var bad = BadPlan.Read().Single(bad => bad.Says == says);
        var type = bad.Text.TrimStart().StartsWith('{') ? "application/json" : "application/yaml";
        var problem = await web.Problem(400, HttpMethod.Post, "/v1/plans:check", bad.Text, type);
        Assert.Equal(("PLAN_UNREADABLE", "INVALID_ARGUMENT", "urn:foamrules:problem:plan-unreadable"), ((string)problem["reason"]!, (string)problem["code"]!, (string)problem["type"]!));
        var violations = problem["violations"]!.AsArray().Select(violation => violation!.AsObject()).ToList();
        Assert.Equal(bad.Paths, violations.Select(violation => (string)violation["path"]!).Order(StringComparer.Ordinal));
        Assert.All(violations, violation =>
        {
            Assert.NotEmpty((string)violation["allowed"]!);
            Assert.NotEmpty((string)violation["remedy"]!);
            Assert.True((int)violation["line"]! >= 1);
        });
        // A plan that cannot be read at all is no plan to validate; what can be read is validated with the same words.
        var validated = Parse<ValidatePlanResponse>(await web.Answer(HttpMethod.Post, "/v1/plans:validate", JsonFormatter.Default.Format(PlanReader.ReadText(bad.Text, null, Now).Message)));
        Assert.Equal(bad.Paths, validated.Violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task What_is_refused_is_said_in_the_language_that_is_asked_for_and_programs_read_the_same()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/plans:check")
        {
            Content = new StringContent("name: x\nstage: nevar\n", System.Text.Encoding.UTF8, "application/yaml"),
            Headers = { { "Accept-Language", "de, es-MX;q=0.9, en;q=0.5" } },
        };
        using var answer = await web.Client.SendAsync(request);
        var problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        Assert.Equal(("Lo que se envió no se puede usar", "PLAN_UNREADABLE", 400), ((string)problem["title"]!, (string)problem["reason"]!, (int)problem["status"]!));
        var stage = problem["violations"]!.AsArray().Single(one => (string)one!["path"]! == "stage")!;
        Assert.Equal(("usar uno de estos nombres", 2), ((string)stage["remedy"]!, (int)stage["line"]!));

        // What the address says counts before the header.
        var french = await web.Problem(400, HttpMethod.Post, "/v1/plans:check?language=fr", "stage: nevar\n", "application/yaml");
        Assert.Equal("Ce qui a été envoyé ne peut pas servir", (string)french["title"]!);
    }

    [Fact]
    public async Task A_plan_is_validated_and_the_record_refuses_in_the_language_of_the_request_or_its_metadata()
    {
        var client = new PlanCheckService.PlanCheckServiceClient(web.Channel);
        var plan = new Plan { Name = "x" };
        var english = await client.ValidatePlanAsync(new ValidatePlanRequest { Plan = plan });
        var asked = await client.ValidatePlanAsync(new ValidatePlanRequest { Plan = plan, Language = "fr-CA" }, new Metadata { { "accept-language", "es" } });
        var preferred = await client.ValidatePlanAsync(new ValidatePlanRequest { Plan = plan }, new Metadata { { "accept-language", "fr" } });
        Assert.Equal(asked, preferred);
        Assert.NotEqual(english, preferred);
        Assert.Equal(english.Violations.Select(one => one.Path), preferred.Violations.Select(one => one.Path));

        var reviews = new ReviewService.ReviewServiceClient(web.Channel);
        var refused = await Assert.ThrowsAsync<RpcException>(() => reviews.GetReviewAsync(
            new GetReviewRequest { ReviewId = "nothing" }, new Metadata { { "x-actor", "Sam" }, { "x-role", "reader" }, { "accept-language", "es" } }).ResponseAsync);
        Assert.Equal("no hay ninguna revisión con este id; ListReviews las enumera", refused.Status.Detail);
        Assert.Equal("NOT_FOUND", refused.GetRpcStatus()!.GetDetail<Google.Rpc.ErrorInfo>().Reason);
    }

    [Theory]
    [MemberData(nameof(Calculations))]
    public async Task A_calculation_answers_over_http_what_the_engine_answers(string name)
    {
        var calculator = Calculators.Find(name)!;
        var request = calculator.Request.Parser.ParseFrom(ByteString.Empty);
        Assert.Empty(MessageReader.Read(DataText.Read(CalculationExamples.TextOf(name), name).Root!, request, name));
        var expected = calculator.Calculate(request).Response!;
        var answer = await web.Answer(HttpMethod.Post, $"/v1/calculations/{name}", CalculationExamples.TextOf(name), "application/yaml");
        Assert.Equal(expected, JsonParser.Default.Parse(answer, expected.Descriptor));
    }

    [Fact]
    public async Task Outside_its_range_a_formula_is_a_problem_with_the_range()
    {
        var problem = await web.Problem(400, HttpMethod.Post, "/v1/calculations/dew-point", """{ "air": { "degrees_celsius": 250 }, "relativeHumidity": { "percent": 50 } }""");
        Assert.Equal(("CALCULATION_OUT_OF_RANGE", "OUT_OF_RANGE", "−100 to 200 °C"), ((string)problem["reason"]!, (string)problem["code"]!, (string)problem["metadata"]!["allowed"]!));
    }

    [Fact]
    public async Task Everything_that_is_wrong_is_told_at_once_unknown_names_among_it()
    {
        var problem = await web.Problem(400, HttpMethod.Post, "/v1/plans:check?langauge=es&units=cubits", """
            { "name": "x", "stage": "someday",
              "wrok": [] }
            """);
        var violations = problem["violations"]!.AsArray().Select(violation => ((string)violation!["path"]!, (int?)violation["line"], (string)violation["remedy"]!)).ToList();
        Assert.Equal(["stage", "wrok", "work", "langauge", "units"], violations.Select(violation => violation.Item1).OrderBy(path => Array.IndexOf(["stage", "wrok", "work", "langauge", "units"], path)));
        Assert.Contains(("wrok", 2, "did you mean work?"), violations);
        Assert.Contains(("langauge", null, "did you mean language?"), violations);
    }

    [Theory]
    [InlineData("POST", "/v1/plans:check", "{ \"name\": ", "application/json", 400, "PLAN_UNREADABLE")]
    [InlineData("POST", "/v1/plans:check", "", "application/json", 400, "PLAN_UNREADABLE")]
    [InlineData("POST", "/v1/plans:check", "name: x", "application/json", 400, "PLAN_UNREADABLE")]
    [InlineData("POST", "/v1/plans:check", "[1, 2", "application/yaml", 400, "PLAN_UNREADABLE")]
    [InlineData("POST", "/v1/plans:check", "name=x", "application/x-www-form-urlencoded", 415, "CONTENT_TYPE")]
    [InlineData("POST", "/v1/plans:check", "{}", null, 415, "CONTENT_TYPE")]
    [InlineData("POST", "/v1/plans:check-many", "{}", "application/json", 415, "CONTENT_TYPE")]
    [InlineData("POST", "/v1/calculations/dew-point?air=1", "{}", "application/json", 400, "REQUEST_UNREADABLE")]
    [InlineData("POST", "/v1/calculations/dew-point", "{}", "application/json", 400, "REQUEST_UNREADABLE")]
    [InlineData("GET", "/v1/requirements?topic=weather", null, null, 400, "REQUEST_UNREADABLE")]
    [InlineData("GET", "/v1/requirements/no.such", null, null, 404, "NOT_FOUND")]
    [InlineData("GET", "/v1/rule-sets/nowhere", null, null, 404, "NOT_FOUND")]
    [InlineData("GET", "/v1/nothing-here", null, null, 404, null)]
    [InlineData("GET", "/v1/plans:check", null, null, 405, null)]
    [InlineData("DELETE", "/v1/requirements", null, null, 405, null)]
    [InlineData("GET", "/v1/reviews", null, null, 401, "CALLER_NOT_STATED")]
    public async Task What_cannot_be_answered_is_a_problem(string method, string path, string? text, string? type, int status, string? reason)
    {
        var problem = await web.Problem(status, new HttpMethod(method), path, text, type);
        Assert.Equal(reason, (string?)problem["reason"]);
        Assert.Equal(reason is null ? "about:blank" : $"urn:foamrules:problem:{reason.ToLowerInvariant().Replace('_', '-')}", (string)problem["type"]!);
        // What became a call has an id, under which the log has it once.
        Assert.Equal(reason is not null, problem["callId"] is not null);
        if ((string?)problem["callId"] is { } id)
        {
            Assert.Single(web.Log, entry => entry.Properties.TryGetValue("CallId", out var value) && value.ToString() == $"\"{id}\"");
        }
    }

    [Fact]
    public async Task A_body_that_is_too_large_or_no_text_is_a_problem()
    {
        Assert.Equal("TOO_LARGE", (string)(await web.Problem(413, HttpMethod.Post, "/v1/plans:check", $$"""{"name":"{{new string('x', ServiceHost.MaxMessageBytes)}}"}"""))["reason"]!);
        using var latin = new ByteArrayContent([(byte)'{', 0xE9, (byte)'}']);
        latin.Headers.TryAddWithoutValidation("Content-Type", "application/json");
        using var response = await web.Client.PostAsync(new Uri("/v1/plans:check", UriKind.Relative), latin);
        Assert.Equal((400, "NOT_UTF8"), ((int)response.StatusCode, (string)JsonNode.Parse(await response.Content.ReadAsStringAsync())!["reason"]!));
    }

    [Fact]
    public async Task A_line_that_cannot_be_read_is_answered_by_its_number_and_the_others_go_on()
    {
        var plan = JsonFormatter.Default.Format(PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), null, Now).Message);
        var lines = new[] { $$"""{"sequence":1,"plan":{{plan}}}""", "no json", """{"sequence":3,"plna":{}}""", "", """{"sequence":5,"plan":{}}""", $$"""{"sequence":6,"plan":{{plan}}}""" };
        var answers = (await web.Answer(HttpMethod.Post, "/v1/plans:check-many", string.Join('\n', lines), "application/x-ndjson")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!.AsObject()).ToList();
        Assert.Equal(5, answers.Count);
        Assert.Equal([2, 3], answers.Where(answer => answer.ContainsKey("problem")).Select(answer => (int)answer["line"]!).Order());
        Assert.Equal("plna", (string)answers.Single(answer => (int?)answer["line"] == 3)["problem"]!["violations"]![0]!["path"]!);
        Assert.Equal(["1", "6"], answers.Where(answer => answer.ContainsKey("report")).Select(answer => (string)answer["sequence"]!).Order());
        Assert.Equal((int)Google.Rpc.Code.InvalidArgument, (int)answers.Single(answer => answer.ContainsKey("error"))["error"]!["code"]!);
    }

    [Fact]
    public async Task The_catalogue_is_read_by_its_paths()
    {
        var catalog = new RuleCatalogService.RuleCatalogServiceClient(web.Channel);
        Assert.Equal(await catalog.ListRequirementsAsync(new ListRequirementsRequest { Topic = "vent", RuleSets = { "us-federal", "us-ibc-2021" } }),
            Parse<ListRequirementsResponse>(await web.Answer(HttpMethod.Get, "/v1/requirements?topic=vent&ruleSets=us-federal&ruleSets=us-ibc-2021")));
        Assert.Equal(await catalog.GetRequirementAsync(new GetRequirementRequest { Id = "vent.air-can-leave", Units = DisplayUnits.Us }),
            Parse<GetRequirementResponse>(await web.Answer(HttpMethod.Get, "/v1/requirements/vent.air-can-leave?units=us")));
        Assert.Equal(await catalog.ListRuleSetsAsync(new ListRuleSetsRequest()), Parse<ListRuleSetsResponse>(await web.Answer(HttpMethod.Get, "/v1/rule-sets")));
        var comparison = new CompareRuleSetsRequest { Before = new RuleSetChoice { RuleSets = { "general-practice" } }, After = new RuleSetChoice { RuleSets = { "us-federal" } } };
        Assert.Equal(await catalog.CompareRuleSetsAsync(comparison), Parse<CompareRuleSetsResponse>(await web.Answer(HttpMethod.Post, "/v1/rule-sets:compare", JsonFormatter.Default.Format(comparison))));
    }

    [Fact]
    public async Task A_review_goes_from_submission_to_the_log_and_a_repeat_is_done_once()
    {
        var plan = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), null, Now).Message!;
        var submission = JsonFormatter.Default.Format(new SubmitPlanRequest { IdempotencyKey = "http-1", Plan = plan });
        var submitted = await web.Answer(HttpMethod.Post, "/v1/reviews", submission, role: "office");
        Assert.Equal(submitted, await web.Answer(HttpMethod.Post, "/v1/reviews", submission, role: "office"));
        var receipt = Parse<SubmitPlanResponse>(submitted).Receipt;
        var path = $"/v1/reviews/{receipt.ReviewId}";
        Assert.Equal("KEY_USED_FOR_ANOTHER_REQUEST", (string)(await web.Problem(409, HttpMethod.Post, $"{path}:comment", """{ "idempotencyKey": "http-1", "text": "x" }""", role: "office"))["reason"]!);
        var sign = new JsonObject { ["idempotencyKey"] = "http-2", ["seenVersion"] = receipt.Sequence }.ToJsonString();
        Assert.Equal("ROLE_MAY_NOT", (string)(await web.Problem(403, HttpMethod.Post, $"{path}:sign-off", sign, role: "crew-lead"))["reason"]!);
        Assert.Equal(1, Parse<SignOffResponse>(await web.Answer(HttpMethod.Post, $"{path}:sign-off", sign, role: "safety-officer")).Revision);
        Assert.Equal("review_id", (string)(await web.Problem(400, HttpMethod.Post, $"{path}:sign-off", """{ "review_id": "another" }""", role: "safety-officer"))["violations"]![0]!["path"]!);
        var review = Parse<GetReviewResponse>(await web.Answer(HttpMethod.Get, path, role: "reader")).Review;
        Assert.Equal([ActKind.Submitted, ActKind.SignedOff], review.History.Select(line => line.Receipt.Kind));
        Assert.Contains(receipt.ReviewId, Parse<ListReviewsResponse>(await web.Answer(HttpMethod.Get, "/v1/reviews?openHolds=false&pageSize=10", role: "reader")).Reviews.Select(one => one.ReviewId));
        var log = (await web.Answer(HttpMethod.Get, "/v1/log", role: "reader")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Parse<ExportLogResponse>).ToList();
        Assert.Equal(review.History.Select(line => line.Receipt.Hash), log.Where(entry => entry.Entry.ReviewId == receipt.ReviewId).Select(entry => entry.Entry.Hash));
        Assert.Empty(Parse<VerifyLogResponse>(await web.Answer(HttpMethod.Post, "/v1/log:verify", "{}", role: "reader")).Problems);
    }

    [Fact]
    public async Task A_call_is_logged_once_under_the_id_that_the_caller_gives()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/rule-sets");
        request.Headers.Add("x-request-id", "http-call-4711");
        using var response = await web.Client.SendAsync(request);
        Assert.Equal("http-call-4711", response.Headers.GetValues("x-request-id").Single());
        Assert.Single(web.Log, entry => entry.Properties.TryGetValue("CallId", out var id) && id.ToString() == "\"http-call-4711\"");
    }

    // A case that does not say when it is judged is judged at the hour at which all doors judge it.
    private static JsonObject WithTime(string json)
    {
        var plan = JsonNode.Parse(json)!.AsObject();
        if (plan["judged_at"] is null && plan["judgedAt"] is null)
        {
            plan["judged_at"] = Now.Now.ToString("O");
        }

        return plan;
    }

    private static T Parse<T>(string json)
        where T : IMessage, new() => new JsonParser(JsonParser.Settings.Default.WithTypeRegistry(Google.Protobuf.Reflection.TypeRegistry.FromFiles(Google.Rpc.ErrorDetailsReflection.Descriptor))).Parse<T>(json);
}
