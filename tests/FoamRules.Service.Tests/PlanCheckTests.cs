using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Google.Rpc;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

namespace FoamRules.Service.Tests;

/// <summary>The service over a real connection.</summary>
public sealed class PlanCheckTests(RunningService service) : IClassFixture<RunningService>
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    public static TheoryData<string> Requirements { get; } = [.. CaseFiles.Read().Select(file => file.Requirement)];

    public static TheoryData<string> BadPlans { get; } = [.. BadPlan.Read().Select(bad => bad.Says)];

    [Theory]
    [MemberData(nameof(Requirements))]
    public async Task A_requirement_says_over_the_wire_what_its_cases_expect(string requirement)
    {
        var cases = CaseFiles.Read().Single(file => file.Requirement == requirement).Firsts().ToList();
        using var call = service.Client.CheckPlans(deadline: DateTime.UtcNow + Patience);
        for (var i = 0; i < cases.Count; i++)
        {
            var plan = PlanReader.ReadText(cases[i].PlanJson, null, Now).Message;
            await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = i, Plan = plan });
        }

        await call.RequestStream.CompleteAsync();
        var wrong = new List<string?>();
        var answered = 0;
        await foreach (var answer in call.ResponseStream.ReadAllAsync())
        {
            answered++;
            wrong.Add(CaseCheck.Mismatch(cases[(int)answer.Sequence], ReportMapper.ToReport(answer.Report)));
        }

        Assert.Equal(cases.Count, answered);
        Assert.Empty(wrong.OfType<string>());
    }

    [Fact]
    public async Task The_answer_is_the_engine_s_report_and_survives_the_way_there_and_back()
    {
        var read = PlanReader.ReadText(Example(), null, Now);
        var answer = await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = read.Message }, deadline: DateTime.UtcNow + Patience);
        var report = Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!;
        Assert.Equal(ReportMapper.ToMessage(report), answer.Report);
        Assert.Equal(answer.Report, ReportMapper.ToMessage(ReportMapper.ToReport(answer.Report)));
        Assert.Equal(read.Digest, answer.Report.PlanDigest);
        Assert.NotEmpty(answer.Report.RuleSets.Single(set => set.Id == "general-practice").Digest);
    }

    [Fact]
    public async Task What_was_tried_comes_with_the_answer_where_it_is_asked_for()
    {
        var read = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml")), null, Now);
        var answer = await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = read.Message, Remedies = true }, deadline: DateTime.UtcNow + Patience);
        Assert.Contains(answer.Report.Remedies.Tried, tried => tried.Requirement == "pass.thickness-within-limit" && tried.Changes.Single().Path == "work[office-wall].spray.passes");
        Assert.NotEmpty(answer.Report.Remedies.WholePlan.Decisions);
        Assert.Equal(answer.Report, ReportMapper.ToMessage(ReportMapper.ToReport(answer.Report)));

        using var call = service.Client.CheckPlans(deadline: DateTime.UtcNow + Patience);
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 7, Plan = read.Message, Remedies = true });
        await call.RequestStream.CompleteAsync();
        Assert.True(await call.ResponseStream.MoveNext(CancellationToken.None));
        Assert.Equal(new CheckPlansResponse { Sequence = 7, Report = answer.Report }, call.ResponseStream.Current);
    }

    [Fact]
    public async Task Sentences_come_in_the_units_that_are_asked_for()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message;
        var us = await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan, Units = DisplayUnits.Us });
        var si = await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan, Units = DisplayUnits.Si });
        Assert.Equal((DisplayUnits.Us, DisplayUnits.Si), (us.Report.Units, si.Report.Units));
        Assert.Equal(us.Report.Judgements, si.Report.Judgements);
    }

    [Fact]
    public async Task A_report_comes_in_the_language_that_is_asked_for_one_or_many()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message;
        var one = await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan, Language = "es-MX" }, deadline: DateTime.UtcNow + Patience);
        Assert.Equal("es", one.Report.Language);
        Assert.NotEmpty(one.Report.LanguageNotes);
        using var call = service.Client.CheckPlans(deadline: DateTime.UtcNow + Patience);
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 1, Plan = plan, Language = "fr" });
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 2, Plan = plan });
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 3, Plan = plan, Language = "xx" });
        await call.RequestStream.CompleteAsync();
        var answers = new SortedDictionary<long, CheckPlansResponse>();
        await foreach (var answer in call.ResponseStream.ReadAllAsync())
        {
            answers[answer.Sequence] = answer;
        }

        Assert.Equal(["fr", "en"], answers.Values.Take(2).Select(answer => answer.Report.Language));
        Assert.Equal(one.Report.Judgements.Select(Outcome), answers[1].Report.Judgements.Select(Outcome));
        Assert.Equal((int)Code.InvalidArgument, answers[3].Error.Code);

        static (string, string, FoamRules.Contracts.V1.Outcome) Outcome(Judgement judgement) => (judgement.Requirement, judgement.Subject.Id, judgement.Outcome);
    }

    [Fact]
    public async Task An_unknown_language_is_an_invalid_argument_with_those_that_there_are()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message;
        var error = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan, Language = "xx" }));
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        var violation = Assert.Single(error.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations);
        Assert.Equal("language", violation.Field);
        Assert.Contains("en, es, fr", violation.Description, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(BadPlans))]
    public async Task A_bad_plan_is_an_invalid_argument_with_every_field(string says)
    {
        var bad = BadPlan.Read().Single(bad => bad.Says == says);
        var plan = PlanReader.ReadText(bad.Text, null, Now).Message!;
        var error = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }));
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        var details = error.GetRpcStatus()!;
        Assert.Equal(bad.Paths, details.GetDetail<BadRequest>()!.FieldViolations.Select(violation => violation.Field).Order(StringComparer.Ordinal));
        Assert.Equal("PLAN_UNREADABLE", details.GetDetail<ErrorInfo>()!.Reason);
        var all = await service.Client.ValidatePlanAsync(new ValidatePlanRequest { Plan = plan });
        Assert.Equal(bad.Paths, all.Violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task More_violations_than_trailers_can_carry_are_counted_and_validate_answers_them_all()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message!.Clone();
        for (var i = 0; i < 500; i++)
        {
            plan.Areas[0].Readings.Add(new Reading { Kind = ReadingKind.RelativeHumidity, Humidity = new Ratio { Percent = 140 } });
        }

        var error = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }));
        var details = error.GetRpcStatus()!;
        Assert.Equal(20, details.GetDetail<BadRequest>()!.FieldViolations.Count);
        Assert.Equal("500", details.GetDetail<ErrorInfo>()!.Metadata["violations_total"]);
        Assert.Equal(500, (await service.Client.ValidatePlanAsync(new ValidatePlanRequest { Plan = plan })).Violations.Count);
    }

    [Fact]
    public async Task A_missing_plan_and_an_unknown_rule_set_are_invalid_arguments()
    {
        var nothing = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest()));
        Assert.Equal(StatusCode.InvalidArgument, nothing.StatusCode);
        var plan = PlanReader.ReadText(Example(), null, Now).Message!.Clone();
        plan.RuleSets.Add("nowhere");
        var unknown = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }));
        Assert.Equal("rule_sets", Assert.Single(unknown.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations).Field);
    }

    [Fact]
    public async Task One_bad_plan_does_not_end_the_stream()
    {
        var good = PlanReader.ReadText(Example(), null, Now).Message;
        using var call = service.Client.CheckPlans(deadline: DateTime.UtcNow + Patience);
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 1, Plan = good });
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 2, Plan = new Plan { Name = "no stage" } });
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 3 });
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 4, Plan = good });
        await call.RequestStream.CompleteAsync();
        var answers = new Dictionary<long, CheckPlansResponse>();
        await foreach (var answer in call.ResponseStream.ReadAllAsync())
        {
            answers[answer.Sequence] = answer;
        }

        Assert.Equal([1, 2, 3, 4], answers.Keys.Order());
        Assert.Equal(answers[1].Report, answers[4].Report);
        Assert.Equal((int)Code.InvalidArgument, answers[2].Error.Code);
        Assert.NotEmpty(answers[2].Error.GetDetail<BadRequest>()!.FieldViolations);
        Assert.Equal((int)Code.InvalidArgument, answers[3].Error.Code);
    }

    [Fact]
    public async Task Answers_come_while_the_caller_still_sends()
    {
        var good = PlanReader.ReadText(Example(), null, Now).Message;
        using var call = service.Client.CheckPlans(deadline: DateTime.UtcNow + Patience);
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 1, Plan = good });
        Assert.True(await call.ResponseStream.MoveNext(CancellationToken.None));
        Assert.Equal(1, call.ResponseStream.Current.Sequence);
        await call.RequestStream.CompleteAsync();
        Assert.False(await call.ResponseStream.MoveNext(CancellationToken.None));
    }

    [Fact]
    public async Task A_message_that_is_too_large_is_refused_as_resource_exhausted()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message!.Clone();
        plan.ResponsiblePerson = new string('x', ServiceHost.MaxMessageBytes + 1);
        var error = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }));
        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
    }

    [Fact]
    public async Task A_deadline_that_has_passed_and_a_caller_that_gave_up_are_not_answered()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message;
        var late = await Assert.ThrowsAsync<RpcException>(async () => await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }, deadline: DateTime.UtcNow.AddMilliseconds(-1)));
        Assert.Equal(StatusCode.DeadlineExceeded, late.StatusCode);
        using var gaveUp = new CancellationTokenSource();
        using var call = service.Client.CheckPlans(cancellationToken: gaveUp.Token);
        await call.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 1, Plan = plan });
        await gaveUp.CancelAsync();
        var cancelled = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            while (await call.ResponseStream.MoveNext(CancellationToken.None))
            {
            }
        });
        Assert.Equal(StatusCode.Cancelled, cancelled.StatusCode);
    }

    [Fact]
    public async Task Health_and_reflection_answer()
    {
        var health = await new Health.HealthClient(service.Channel).CheckAsync(new HealthCheckRequest());
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, health.Status);
        using var reflection = new ServerReflection.ServerReflectionClient(service.Channel).ServerReflectionInfo();
        await reflection.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" });
        Assert.True(await reflection.ResponseStream.MoveNext(CancellationToken.None));
        Assert.Contains(reflection.ResponseStream.Current.ListServicesResponse.Service, one => one.Name == "foamrules.v1.PlanCheckService");
        await reflection.RequestStream.CompleteAsync();
    }

    [Fact]
    public async Task A_call_is_logged_once_under_its_id_and_its_plan_never()
    {
        var plan = PlanReader.ReadText(Example(), null, Now).Message!.Clone();
        plan.Name = "a-name-that-no-log-may-hold";
        var headers = new Metadata { { "x-request-id", "call-4711" } };
        using var call = service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }, headers);
        await call;
        Assert.Equal("call-4711", (await call.ResponseHeadersAsync).GetValue("x-request-id"));
        var mine = service.Log.Where(entry => entry.Properties.TryGetValue("CallId", out var id) && id.ToString() == "\"call-4711\"").ToList();
        var entry = Assert.Single(mine);
        Assert.Equal("OK", entry.Properties["StatusCode"].ToString());
        Assert.DoesNotContain(service.Log, entry => entry.RenderMessage(null).Contains(plan.Name, StringComparison.Ordinal) || entry.Properties.Values.Any(value => value.ToString().Contains(plan.Name, StringComparison.Ordinal)));
    }

    private static string Example() => File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml"));
}
