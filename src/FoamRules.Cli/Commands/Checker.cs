using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Remedies;
using FoamRules.Rules.Engine;
using Google.Rpc;
using Grpc.Core;
using Grpc.Net.Client;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Cli.Commands;

/// <summary>A report, or why there is none.</summary>
/// <param name="Report">The report.</param>
/// <param name="Problem">What went wrong, in a sentence; null where <paramref name="Violations"/> says it, or nothing did.</param>
/// <param name="Violations">What is wrong with the request.</param>
internal sealed record Answer(Report? Report, Said? Problem, IReadOnlyList<Violation> Violations);

/// <summary>Checks plans in this process or on a service: the same answer either way.</summary>
internal abstract class Checker : IDisposable
{
    /// <summary>Opens the engine, or a connection where a server is named; null after saying what is wrong.</summary>
    /// <param name="server">The server's address; null: this process.</param>
    /// <param name="rulesFolder">The folder of the rule sets, for this process.</param>
    /// <param name="plans">How many plans there are: several go over one stream.</param>
    /// <param name="translations">Read the translations of the rule sets, too, in this process.</param>
    public static Checker? Open(string? server, string rulesFolder, int plans, bool translations)
    {
        if (server is null)
        {
            return CommonOptions.OpenEngine(rulesFolder, translations) is { } engine ? new InProcess(engine) : null;
        }

        if (Uri.TryCreate(server, UriKind.Absolute, out var uri) && uri.Scheme is "http" or "https")
        {
            return plans > 1 ? new StreamChecker(uri!) : new OnServer(uri!);
        }

        Console.Error.WriteLine($"--server: found `{server}`; allowed: an address like http://localhost:5080");
        return null;
    }

    /// <summary>The engine; null where a service judges.</summary>
    public virtual CheckEngine? Engine => null;

    public abstract Task<Answer> Check(PlanRead plan, Request request, CancellationToken cancellation);

    public virtual void Dispose()
    {
    }

    /// <summary>The plan with the rule sets that the caller names besides.</summary>
    protected static Contract.Plan WithRuleSets(PlanRead plan, Request request)
    {
        var message = plan.Message!.Clone();
        message.RuleSets.AddRange(request.RuleSets.Except(message.RuleSets));
        return message;
    }

    /// <summary>What a service refused, with each field that it names.</summary>
    protected static Answer Refused(StatusCode code, string why, Google.Rpc.Status? status)
    {
        var violations = status?.GetDetail<BadRequest>()?.FieldViolations
            .Select(violation => new Violation(violation.Field, violation.Description, "", "")).ToList() ?? [];
        return new Answer(null, code == StatusCode.Unavailable ? (Said)$"the service cannot be reached: {why}" : $"the service answered {code}: {why}", violations);
    }

    private sealed class InProcess(CheckEngine engine) : Checker
    {
        public override CheckEngine Engine => engine;

        public override Task<Answer> Check(PlanRead plan, Request request, CancellationToken cancellation)
        {
            var options = new CheckOptions(plan.Digest, request.RuleSets, request.Units, request.Drawn, request.Language);
            var result = engine.Check(plan.Plan!, options, cancellation);
            var report = request.Remedies && result.Report is { } judged ? new RemedyFinder(engine).Find(plan, judged, options, cancellation) : result.Report;
            return Task.FromResult(new Answer(report, null, ViolationWords.In(result.Violations, request.Language)));
        }
    }

    private sealed class OnServer(Uri server) : Checker
    {
        private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30), PatienceForTries = TimeSpan.FromMinutes(5);
        private readonly GrpcChannel _channel = ServerChannel.Open(server);

        public override async Task<Answer> Check(PlanRead plan, Request request, CancellationToken cancellation)
        {
            try
            {
                var client = new Contract.PlanCheckService.PlanCheckServiceClient(ServerChannel.Calls(_channel, server));
                var call = new Contract.CheckPlanRequest { Plan = WithRuleSets(plan, request), Units = (Contract.DisplayUnits)(request.Units ?? 0), Pictures = request.Drawn, Remedies = request.Remedies, Language = request.Language ?? "" };
                var response = await client.CheckPlanAsync(call, deadline: DateTime.UtcNow + (request.Remedies ? PatienceForTries : Patience), cancellationToken: cancellation).ConfigureAwait(false);
                return new Answer(ReportMapper.ToReport(response.Report), null, []);
            }
            catch (RpcException error)
            {
                return Refused(error.StatusCode, error.Status.Detail, error.GetRpcStatus());
            }
        }

        public override void Dispose()
        {
            _channel.Dispose();
            base.Dispose();
        }
    }
}
