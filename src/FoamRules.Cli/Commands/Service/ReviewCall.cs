using System.CommandLine;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Readings;
using FoamRules.Records.Reviews;
using FoamRules.Text;
using Google.Rpc;
using Grpc.Core;
using Said = FoamRules.Model.Said;

namespace FoamRules.Cli.Commands.Service;

/// <summary>One call to ReviewService: who calls, what is sent, what comes back in words.</summary>
/// <param name="calls">The service.</param>
/// <param name="caller">Who calls.</param>
/// <param name="key">The key that makes a repeat harmless.</param>
/// <param name="tongue">The language of the answer.</param>
/// <param name="cancellation">Gives up where the user does.</param>
internal sealed class ReviewCall(CallInvoker calls, Metadata caller, string key, Tongue tongue, CancellationToken cancellation)
{
    private readonly ReviewService.ReviewServiceClient _client = new(calls);

    /// <summary>A command that makes one call.</summary>
    public static Command Command(string name, string description, IEnumerable<Symbol> symbols, Func<ParseResult, ReviewCall, Task<int>> act)
    {
        var server = new Option<string>("--server") { Description = "the service, such as http://localhost:5080", Required = true };
        var actor = new Option<string>("--actor") { Description = "who acts, by name; it stays on record as stated; may be left out where a key or token says it", Required = !ServerChannel.HasProof };
        var role = new Option<string>("--role") { Description = "in which capacity; may be left out where a key or token gives one role only", Required = !ServerChannel.HasProof };
        role.AcceptOnlyFromAmong("office", "safety-officer", "crew-lead", "reader");
        var key = new Option<string>("--key") { Description = "sent again with the same key it is done once; a new one where it is left out", DefaultValueFactory = _ => Guid.CreateVersion7().ToString("N") };
        var language = CommonOptions.Language();
        var command = new Command(name, description);
        foreach (var symbol in symbols)
        {
            if (symbol is Argument argument)
            {
                command.Arguments.Add(argument);
            }
            else
            {
                command.Options.Add((Option)symbol);
            }
        }

        foreach (var option in new Option[] { server, actor, role, key, language })
        {
            command.Options.Add(option);
        }

        command.SetAction(async (parsed, cancellation) =>
        {
            if (!Uri.TryCreate(parsed.GetRequiredValue(server), UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https"))
            {
                Console.Error.WriteLine($"--server: found `{parsed.GetValue(server)}`; allowed: an address like http://localhost:5080");
                return ExitCode.Unusable;
            }

            using var channel = ServerChannel.Open(uri);
            var tongue = new Tongue(parsed.GetValue(language));
            var headers = new Metadata();
            if (tongue.Language is { } tag)
            {
                headers.Add("accept-language", tag);
            }

            if (parsed.GetValue(actor) is { } stated)
            {
                headers.Add("x-actor-bin", System.Text.Encoding.UTF8.GetBytes(stated));
            }

            if (parsed.GetValue(role) is { } word)
            {
                headers.Add("x-role", word);
            }

            try
            {
                return await act(parsed, new ReviewCall(ServerChannel.Calls(channel, uri), headers, parsed.GetRequiredValue(key), tongue, cancellation)).ConfigureAwait(false);
            }
            catch (RpcException error)
            {
                tongue.Unusable($"the service answered {error.StatusCode}: {error.Status.Detail}");
                CommonOptions.WriteViolations(error.GetRpcStatus()?.GetDetail<BadRequest>()?.FieldViolations
                    .Select(violation => new Model.Violation(violation.Field, violation.Description, "", "")) ?? []);
                return ExitCode.Unusable;
            }
            catch (UnusableFileException)
            {
                return ExitCode.Unusable;
            }
        });
        return command;
    }

    public async Task<int> Submit(string file)
    {
        var response = await _client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = key, Plan = Whole(file) }, caller, cancellationToken: cancellation).ConfigureAwait(false);
        return Say(response.Receipt, response.Report);
    }

    public async Task<int> Revise(string id, string file, long seen, string why)
    {
        var request = new RevisePlanRequest { IdempotencyKey = key, ReviewId = id, SeenVersion = seen, Plan = Whole(file), Why = why };
        var response = await _client.RevisePlanAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false);
        Say(response.Differences);
        return Say(response.Receipt, response.Report);
    }

    public async Task<int> SignOff(string id, long seen)
    {
        var response = await _client.SignOffAsync(new SignOffRequest { IdempotencyKey = key, ReviewId = id, SeenVersion = seen }, caller, cancellationToken: cancellation).ConfigureAwait(false);
        Say(response.Receipt);
        return ExitCode.Proceed;
    }

    public async Task<int> Release(string id, string requirement, string subject, long seen, ReleaseHoldRequest request)
    {
        // The kind of the subject stands on the finding; a person names the id only.
        var review = (await _client.GetReviewAsync(new GetReviewRequest { ReviewId = id }, caller, cancellationToken: cancellation).ConfigureAwait(false)).Review;
        var finding = review.OpenHolds.Concat(review.Report.Findings).FirstOrDefault(one => one.Requirement == requirement && one.Subject.Id == subject);
        (request.IdempotencyKey, request.ReviewId, request.SeenVersion, request.Requirement) = (key, id, seen, requirement);
        request.Subject = finding?.Subject ?? new Subject { Kind = SubjectKind.Plan, Id = subject };
        Say((await _client.ReleaseHoldAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false)).Receipt);
        return ExitCode.Proceed;
    }

    public async Task<int> PreStart(string id, string? today, string? plan)
    {
        var request = new CheckPreStartRequest { IdempotencyKey = key, ReviewId = id, Today = today is null ? null : Part(today), Plan = plan is null ? null : Part(plan) };
        var response = await _client.CheckPreStartAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false);
        Console.Out.WriteLine(tongue.Say($"{response.Answer.ToString().ToUpperInvariant()} against revision {response.Revision}"));
        foreach (var because in response.Because)
        {
            Console.Out.WriteLine($"  {because}");
        }

        Say(response.Differences);
        Say(response.Receipt, response.Report);
        return response.Answer switch { PreStartAnswer.Go => ExitCode.Proceed, PreStartAnswer.Hold => ExitCode.Hold, _ => ExitCode.Stop };
    }

    public async Task<int> CloseOut(string id, string file, long seen)
    {
        var request = new CloseOutRequest { IdempotencyKey = key, ReviewId = id, SeenVersion = seen, Plan = Part(file) };
        var response = await _client.CloseOutAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false);
        Say(response.Differences);
        return Say(response.Receipt, response.Report);
    }

    public async Task<int> Reenter(ReleaseReentryRequest request, string? readings)
    {
        request.IdempotencyKey = key;
        if (readings is not null)
        {
            request.AirborneLevels.AddRange(Part(readings).Areas.Where(area => area.Id == request.Area).SelectMany(area => area.AirborneLevels));
        }

        try
        {
            Say((await _client.ReleaseReentryAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false)).Receipt);
            return ExitCode.Proceed;
        }
        catch (RpcException error) when (error.GetRpcStatus()?.GetDetail<ErrorInfo>()?.Reason == "REENTRY_NOT_YET")
        {
            Console.Error.WriteLine(error.Status.Detail);
            return ExitCode.Hold;
        }
    }

    public async Task<int> List(string text, string requirement, bool openHolds)
    {
        var request = new ListReviewsRequest { Text = text, Requirement = requirement };
        if (openHolds)
        {
            request.OpenHolds = true;
        }

        do
        {
            var page = await _client.ListReviewsAsync(request, caller, cancellationToken: cancellation).ConfigureAwait(false);
            foreach (var review in page.Reviews)
            {
                Console.Out.WriteLine(Line(review));
            }

            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        return ExitCode.Proceed;
    }

    public async Task<int> Show(string id)
    {
        var review = (await _client.GetReviewAsync(new GetReviewRequest { ReviewId = id }, caller, cancellationToken: cancellation).ConfigureAwait(false)).Review;
        Console.Out.WriteLine(Line(review.Summary));
        foreach (var hold in review.OpenHolds)
        {
            Console.Out.WriteLine("  " + tongue.Say($"open hold: {hold.Requirement} {hold.Subject.Id}: {hold.Found} (release: {string.Join(", ", hold.ReleaseRoles)})"));
        }

        foreach (var line in review.History)
        {
            Console.Out.WriteLine($"  {line.Receipt.Sequence}  {line.Receipt.At.ToDateTimeOffset():yyyy-MM-dd HH:mm}Z  {line.Receipt.Actor} ({tongue.Say(Words.Of(line.Receipt.Role))}, {tongue.Say(Words.Of(line.Receipt.Identity))}): {line.What}");
            Say(line.Differences);
        }

        return ExitCode.Proceed;
    }

    private string Line(ReviewSummary review) =>
        tongue.Say($"{review.ReviewId}  version {review.Version}  revision {review.Revision}{(review.SignedRevision == review.Revision ? (Said)", signed off" : "")}  {(Said)Words.Of(review.Disposition)}, {review.OpenStops} stops, {review.OpenHolds} open holds  {review.WorkDate}  {review.PlanName}");

    private int Say(Receipt receipt, Report report)
    {
        if (CommonOptions.OpenWords(CommonOptions.RulesFolder) is { } words)
        {
            Console.Out.WriteLine(Output.ReportText.Write(ReportReading.Of(ReportMapper.ToReport(report), Reader.Anybody, words, all: false), words));
        }

        Say(receipt);
        return ExitCode.Of((Model.Disposition)report.Disposition);
    }

    private void Say(Receipt receipt) => Console.Out.WriteLine(tongue.Say($"on record: review {receipt.ReviewId}, version {receipt.Sequence}, hash {receipt.Hash}"));

    private void Say(IEnumerable<PlanDifference> differences)
    {
        foreach (var one in differences)
        {
            Console.Out.WriteLine($"    {one.Path}: {Given(one.Was)} -> {Given(one.Is)}");
        }
    }

    private string Given(string value) => value.Length == 0 ? tongue.Say("not given") : value;

    private Plan Whole(string file) => Read(file, (text, name) =>
    {
        var read = PlanReader.ReadText(text, name, new ReadOptions(DateTimeOffset.Now));
        return (read.Message, read.Violations);
    });

    // A part of a plan, or a plan whose stage the call decides, is checked by the service, where it is whole.
    private Plan Part(string file) => Read(file, (text, name) =>
    {
        var data = DataText.Read(text, name);
        var plan = new Plan();
        return (plan, data.Root is null ? data.Violations : MessageReader.Read(data.Root, plan, name));
    });

    private Plan Read(string file, Func<string, string, (Plan? Plan, IReadOnlyList<Model.Violation> Violations)> read)
    {
        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            tongue.Unusable($"{name}: {problem}");
            throw new UnusableFileException();
        }

        var (plan, violations) = read(text, name);
        if (violations.Count > 0)
        {
            tongue.Unusable($"{name} cannot be used; nothing was sent:");
            CommonOptions.WriteViolations(ViolationWords.In(violations, tongue.Language));
            throw new UnusableFileException();
        }

        return plan!;
    }

    private sealed class UnusableFileException : Exception;
}
