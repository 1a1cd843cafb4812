using System.Globalization;
using System.Text.RegularExpressions;
using FoamRules.Exchange;
using FoamRules.Rules.Catalogue;
using FoamRules.RuleSets;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Service;

/// <summary>RuleCatalogService: what the engine in use judges by, and what other rule sets would change.</summary>
/// <param name="engines">The engine in use.</param>
/// <param name="clock">Written into plans that do not say when they are judged.</param>
public sealed partial class RuleCatalogEndpoint(EngineSource engines, TimeProvider clock) : Contract.RuleCatalogService.RuleCatalogServiceBase
{
    // Drafts are compiled to see whether they fit; one after the other, so that checks of plans keep their processors.
    private static readonly SemaphoreSlim OneDraft = new(1);

    /// <inheritdoc/>
    public override Task<Contract.ListRequirementsResponse> ListRequirements(Contract.ListRequirementsRequest request, ServerCallContext context)
    {
        var catalogue = Open(request);
        var book = Book(catalogue, request.RuleSets, "rule_sets");
        if (request.Topic.Length > 0 && !catalogue.Topics.Contains(request.Topic))
        {
            throw Impossible([new Model.Violation("topic", $"`{request.Topic}`", string.Join(", ", catalogue.Topics), "name one of these, or leave it out for all")]);
        }

        var response = new Contract.ListRequirementsResponse();
        response.Requirements.AddRange(Messages<Contract.RequirementSummary>(RuleCatalogue.Requirements(book, request.Topic.Length > 0 ? request.Topic : null)));
        response.RuleSets.AddRange(Used(book));
        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override Task<Contract.GetRequirementResponse> GetRequirement(Contract.GetRequirementRequest request, ServerCallContext context)
    {
        var book = Book(Open(request), request.RuleSets, "rule_sets");
        var requirement = RuleCatalogue.Requirement(book, request.Id, Units(request.Units))
            ?? throw Statuses.NotFound("requirement", request.Id, "ListRequirements lists them all");
        return Task.FromResult(new Contract.GetRequirementResponse { Requirement = ReportMapper.MessageOf<Contract.Requirement>(requirement) });
    }

    /// <inheritdoc/>
    public override Task<Contract.ListRuleSetsResponse> ListRuleSets(Contract.ListRuleSetsRequest request, ServerCallContext context)
    {
        var state = engines.State;
        var response = new Contract.ListRuleSetsResponse();
        response.RuleSets.AddRange(Messages<Contract.RuleSetSummary>(new RuleCatalogue(state.Engine).RuleSets()));
        if (state.Refused is { } refused)
        {
            response.Refused = new Contract.RulesRefused { At = Timestamp.FromDateTimeOffset(refused.At), Violations = { refused.Violations.Select(Message) } };
        }

        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override Task<Contract.GetRuleSetResponse> GetRuleSet(Contract.GetRuleSetRequest request, ServerCallContext context)
    {
        var set = Open(request).RuleSet(request.Id, Units(request.Units))
            ?? throw Statuses.NotFound("rule set", request.Id, "ListRuleSets lists them all");
        return Task.FromResult(new Contract.GetRuleSetResponse { RuleSet = ReportMapper.MessageOf<Contract.RuleSet>(set) });
    }

    /// <inheritdoc/>
    public override Task<Contract.CompareRuleSetsResponse> CompareRuleSets(Contract.CompareRuleSetsRequest request, ServerCallContext context)
    {
        var catalogue = Open(request);
        var before = Book(catalogue, request.Before.RuleSets, "before.rule_sets");
        var after = Book(catalogue, request.After.RuleSets, "after.rule_sets");
        var units = Units(request.Units);
        var now = new ReadOptions(clock.GetUtcNow());
        var plans = request.Plans.Select(plan => PlanReader.ReadMessage(plan, now)).ToList();
        var unreadable = plans.SelectMany((read, i) => read.Violations.Select(violation => violation with { Path = string.Create(CultureInfo.InvariantCulture, $"plans[{i}].{violation.Path}") })).ToList();
        if (unreadable.Count > 0)
        {
            throw Impossible(unreadable);
        }

        var response = new Contract.CompareRuleSetsResponse();
        response.Differences.AddRange(Messages<Contract.Difference>(RuleCatalogue.Compare(before, after, units)));
        response.Plans.AddRange(Messages<Contract.PlanComparison>(plans.Select(read => catalogue.Compare(read.Plan!, before, after, units, context.CancellationToken))));
        response.Before.AddRange(Used(before));
        response.After.AddRange(Used(after));
        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override async Task<Contract.ValidateRuleSetResponse> ValidateRuleSet(Contract.ValidateRuleSetRequest request, ServerCallContext context)
    {
        var catalogue = Open(request);
        CheckNames(request);
        var files = new RuleSetFiles(request.Id, [.. request.Files.OrderBy(file => file.Name, StringComparer.Ordinal).Select(file => new RuleSetFile(file.Name, file.Content))]);
        await OneDraft.WaitAsync(context.CancellationToken).ConfigureAwait(false);
        try
        {
            var draft = catalogue.Check(files, Units(request.Units));
            var response = new Contract.ValidateRuleSetResponse { RuleSet = draft.RuleSet is { } set ? ReportMapper.MessageOf<Contract.RuleSetSummary>(set) : null };
            response.Violations.AddRange(draft.Violations.Select(Message));
            response.Differences.AddRange(Messages<Contract.Difference>(draft.Differences));
            response.Relaxations.AddRange(draft.Relaxations);
            return response;
        }
        finally
        {
            OneDraft.Release();
        }
    }

    // The engine in use, read once for the whole request; and the request itself, checked.
    private RuleCatalogue Open(IMessage request) =>
        RequestCheck.Of(request) is { Count: > 0 } violations ? throw Impossible(violations) : new RuleCatalogue(engines.Current);

    private static RuleBook Book(RuleCatalogue catalogue, IReadOnlyList<string> names, string path) =>
        catalogue.Book([.. names], out var violations) ?? throw Impossible([.. violations.Select(violation => violation with { Path = path })]);

    private static void CheckNames(Contract.ValidateRuleSetRequest request)
    {
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        var wrong = new List<Model.Violation>();
        for (var i = 0; i < request.Files.Count; i++)
        {
            var name = request.Files[i].Name;
            var path = string.Create(CultureInfo.InvariantCulture, $"files[{i}].name");
            if (!FileName().IsMatch(name))
            {
                wrong.Add(new Model.Violation(path, $"`{name}`", "a file name of letters, digits and hyphens that ends in .yaml, of a translation below languages/ and its language", "name it after its topic, such as vent.yaml or languages/es/vent.yaml"));
            }
            else if (!seen.Add(name))
            {
                wrong.Add(new Model.Violation(path, $"`{name}` a second time", "each file once", "put both into one file"));
            }
        }

        if (wrong.Count > 0)
        {
            throw Impossible(wrong);
        }
    }

    [GeneratedRegex(@"^(languages/[A-Za-z0-9-]+/)?[A-Za-z0-9.-]+\.yaml\z")]
    private static partial Regex FileName();

    private static UnusableException Impossible(IReadOnlyList<Model.Violation> violations) => Statuses.Impossible(violations);

    private static Model.DisplayUnits Units(Contract.DisplayUnits units) => units == Contract.DisplayUnits.Us ? Model.DisplayUnits.Us : Model.DisplayUnits.Si;

    private static IEnumerable<TMessage> Messages<TMessage>(IEnumerable<object> records)
        where TMessage : IMessage, new() => records.Select(ReportMapper.MessageOf<TMessage>);

    private static IEnumerable<Contract.RuleSetUsed> Used(RuleBook book) => RuleCatalogue.Used(book).Select(ReportMapper.MessageOf<Contract.RuleSetUsed>);

    private static Contract.Violation Message(Model.Violation violation) => new()
    {
        Path = violation.Path,
        Found = violation.Found,
        Allowed = violation.Allowed,
        Remedy = violation.Remedy,
        Line = violation.Line,
        Column = violation.Column,
        File = violation.File ?? "",
    };
}
