using System.Text.Json.Nodes;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Exchange;

/// <summary>What a rule set says of a requirement, for the rules of a SARIF log.</summary>
/// <param name="MustHold">What must hold.</param>
/// <param name="Caution">The caution that stands on it.</param>
/// <param name="Sources">Its sources.</param>
public sealed record SarifRule(string MustHold, string Caution, IReadOnlyList<SourceUsed> Sources);

/// <summary>
/// Reports as a log by SARIF 2.1.0 (OASIS), so that any viewer of that standard shows them. A judgement is a result: met is pass, not
/// met is fail, undetermined is open, not applicable is notApplicable, and one that failed is review. Only a fail has a level there:
/// stop and hold are errors, a caution is a warning, a reminder is a note; the severity stands under the properties of each result.
/// </summary>
public static class SarifLog
{
    /// <summary>The media type of a log.</summary>
    public const string MediaType = "application/sarif+json";

    /// <summary>A log of runs.</summary>
    public static JsonObject Of(IEnumerable<JsonObject> runs) => new()
    {
        ["$schema"] = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        ["version"] = "2.1.0",
        ["runs"] = new JsonArray([.. runs]),
    };

    /// <summary>One report as a run.</summary>
    /// <param name="report">The report.</param>
    /// <param name="file">The plan's file; null where it came without one.</param>
    /// <param name="text">What stands in the plan's file, for the lines; null where it came without one.</param>
    /// <param name="rule">What the rule sets say of a requirement; null where that is not known.</param>
    public static JsonObject Run(Report report, string? file, string? text, Func<string, SarifRule?> rule)
    {
        var findings = report.Findings.GroupBy(finding => (finding.Requirement, finding.Subject)).ToDictionary(group => group.Key, group => group.First());
        var ids = report.Judgements.Select(judgement => judgement.Requirement).Distinct().Order(StringComparer.Ordinal).ToList();
        var rules = ids.ToDictionary(id => id, id => rule(id) ?? OfFinding(report.Findings.FirstOrDefault(finding => finding.Requirement == id)));
        var tree = text is null ? null : DataText.Read(text, file).Root;
        var place = file is null || tree is null ? null : new Place(UriOf(file), new LineFinder(tree));
        var run = new JsonObject
        {
            ["tool"] = new JsonObject
            {
                ["driver"] = new JsonObject
                {
                    ["name"] = "FoamRules",
                    ["version"] = report.EngineVersion,
                    ["rules"] = new JsonArray([.. ids.Select(id => Rule(id, rules[id]))]),
                },
            },
            ["language"] = report.Language[..2],
            ["columnKind"] = "utf16CodeUnits",
            ["invocations"] = new JsonArray(new JsonObject { ["executionSuccessful"] = report.Complete }),
        };
        if (file is not null)
        {
            run["artifacts"] = new JsonArray(new JsonObject { ["location"] = new JsonObject { ["uri"] = UriOf(file) } });
        }

        run["results"] = new JsonArray([.. report.Judgements.Select(judgement =>
            Result(judgement, findings.GetValueOrDefault((judgement.Requirement, judgement.Subject)), ids.BinarySearch(judgement.Requirement, StringComparer.Ordinal), rules[judgement.Requirement], place))]);
        run["properties"] = new JsonObject
        {
            ["planName"] = report.PlanName,
            ["planDigest"] = report.PlanDigest,
            ["stage"] = Word(report.Stage),
            ["disposition"] = Word(report.Disposition),
            ["summary"] = report.Summary,
            ["ruleSets"] = new JsonArray([.. report.RuleSets.Select(set => new JsonObject { ["id"] = set.Id, ["version"] = set.Version, ["digest"] = set.Digest })]),
            ["cautions"] = Words(report.Cautions),
        };
        return run;
    }

    private static JsonObject Rule(string id, SarifRule? said)
    {
        var rule = new JsonObject { ["id"] = id };
        if (said is not null)
        {
            rule["shortDescription"] = Message(said.MustHold);
            rule["help"] = Message(string.Join('\n', (said.Caution.Length > 0 ? new[] { said.Caution } : []).Concat(said.Sources.Select(source => source.Citation)).DefaultIfEmpty(said.MustHold)));
            rule["properties"] = new JsonObject { ["tags"] = new JsonArray(id.Split('.')[0]), ["sources"] = Sources(said.Sources) };
        }

        return rule;
    }

    private static JsonObject Result(Judgement judgement, Finding? finding, int ruleIndex, SarifRule? rule, Place? place)
    {
        var (kind, level) = (judgement.Outcome, judgement.Severity) switch
        {
            (Outcome.Met, _) => ("pass", "none"),
            (Outcome.Undetermined, _) => ("open", "none"),
            (Outcome.NotApplicable, _) => ("notApplicable", "none"),
            (Outcome.Faulted, _) => ("review", "none"),
            (_, Severity.StopWork or Severity.HoldPoint) => ("fail", "error"),
            (_, Severity.Caution) => ("fail", "warning"),
            (_, Severity.Reminder) => ("fail", "note"),
            _ => ("fail", "none"),
        };
        var says = new[] { finding?.Found, judgement.Reason, rule?.MustHold }.FirstOrDefault(text => !string.IsNullOrEmpty(text)) ?? judgement.Requirement;
        return new JsonObject
        {
            ["ruleId"] = judgement.Requirement,
            ["ruleIndex"] = ruleIndex,
            ["kind"] = kind,
            ["level"] = level,
            ["message"] = Message(finding is { Remedy.Length: > 0 } ? $"{says}\n{finding.Remedy}" : says),
            ["locations"] = new JsonArray(Location(judgement, finding, place)),
            ["partialFingerprints"] = new JsonObject { ["requirementAndSubject/v1"] = $"{judgement.Requirement}/{Word(judgement.Subject.Kind)}/{judgement.Subject.Id}" },
            ["properties"] = Properties(judgement, finding),
        };
    }

    private static JsonObject Properties(Judgement judgement, Finding? finding)
    {
        var properties = new JsonObject { ["outcome"] = Word(judgement.Outcome) };
        if ((finding?.Severity ?? judgement.Severity) is { } severity)
        {
            properties["severity"] = Word(severity);
        }

        if (judgement.Evidence.Length > 0)
        {
            properties["evidence"] = Words(judgement.Evidence.Select(evidence => evidence.Path));
        }

        if (finding is not null)
        {
            properties["missing"] = Words(finding.Missing);
            properties["releaseRoles"] = Words(finding.ReleaseRoles);
            properties["caution"] = finding.Caution;
            properties["sources"] = Sources(finding.Sources);
        }

        return properties;
    }

    // Logical: the subject, and the fields that it rests on or waits for. Physical: where the first of these stands in the file.
    private static JsonObject Location(Judgement judgement, Finding? finding, Place? place)
    {
        var subject = PathOf(judgement.Subject);
        var fields = judgement.Evidence.Select(evidence => evidence.Path).Concat(finding?.Missing ?? []).Distinct().ToList();
        var location = new JsonObject
        {
            ["logicalLocations"] = new JsonArray([Logical(subject, "object"), .. fields.Where(path => path != subject).Select(path => Logical(path, "property"))]),
        };
        if (place is not null)
        {
            var (line, column) = place.Lines.Find(fields.FirstOrDefault() ?? subject);
            location["physicalLocation"] = new JsonObject
            {
                ["artifactLocation"] = new JsonObject { ["uri"] = place.Uri, ["index"] = 0 },
                ["region"] = new JsonObject { ["startLine"] = line, ["startColumn"] = column },
            };
        }

        return location;
    }

    private static JsonObject Logical(string path, string kind) => new() { ["name"] = path[(path.LastIndexOf('.') + 1)..], ["fullyQualifiedName"] = path, ["kind"] = kind };

    private static string PathOf(Subject subject) => subject.Kind switch
    {
        SubjectKind.Area => $"areas[{subject.Id}]",
        SubjectKind.Work => $"work[{subject.Id}]",
        SubjectKind.Product => $"products[{subject.Id}]",
        SubjectKind.Person => $"people[{subject.Id}]",
        _ => "plan",
    };

    // On a service without its catalogue, what the report itself says.
    private static SarifRule? OfFinding(Finding? finding) => finding is null ? null : new SarifRule(finding.MustHold, finding.Caution, finding.Sources);

    private static JsonArray Sources(IEnumerable<SourceUsed> sources) =>
        [.. sources.Select(source => new JsonObject { ["citation"] = source.Citation, ["status"] = Word(source.Status), ["layer"] = source.Layer })];

    private static JsonObject Message(string text) => new() { ["text"] = text };

    private static JsonArray Words(IEnumerable<string> words) => [.. words.Select(word => (JsonNode?)word)];

    // Words as in plan files: hold-point.
    private static string Word(Enum value) => string.Concat(value.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString()));

    private static string UriOf(string file) => string.Join('/', file.Split('/', '\\').Select(Uri.EscapeDataString));

    private sealed record Place(string Uri, LineFinder Lines);
}
