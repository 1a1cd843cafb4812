using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Testing;

/// <summary>One case: a plan, and what a requirement must say of it.</summary>
/// <param name="Requirement">The requirement's id.</param>
/// <param name="Says">The case in a sentence.</param>
/// <param name="Covers">What it shows: met, not-met, on-limit, inside, outside, missing, not-applicable or other-units.</param>
/// <param name="PlanJson">The plan, as JSON.</param>
/// <param name="SubjectId">The subject's id; empty for the plan itself.</param>
/// <param name="Outcome">The outcome expected.</param>
/// <param name="Severity">The severity expected; null: none.</param>
/// <param name="Found">Words that the finding must contain; null: any.</param>
/// <param name="Remedy">Words that its remedy must contain; null: any.</param>
public sealed record Case(
    string Requirement, string Says, string Covers, string PlanJson, string SubjectId, Outcome Outcome, Severity? Severity, string? Found, string? Remedy)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Requirement}: {Says}";
}

/// <summary>The cases of one requirement.</summary>
/// <param name="Requirement">The requirement's id.</param>
/// <param name="Cases">The cases.</param>
/// <param name="Lacks">What has no case, with the reason.</param>
public sealed record CaseFile(string Requirement, IReadOnlyList<Case> Cases, IReadOnlyDictionary<string, string> Lacks)
{
    /// <summary>Whether every case is asked for where the first ones are enough for a build: the variable <c>EVERY_CASE</c> is set.</summary>
    public static bool Every { get; } = Environment.GetEnvironmentVariable("EVERY_CASE") is { Length: > 0 };

    /// <summary>The first case that is met and the first that is not: enough to see that a further door says what the engine says. All of them where they are asked for.</summary>
    public IEnumerable<Case> Firsts() => Every ? Cases : Cases.GroupBy(one => one.Outcome == Outcome.Met).Select(kind => kind.First());
}

/// <summary>Reads shared/cases: a file a requirement, in the same form for every door.</summary>
public static class CaseFiles
{
    /// <summary>What each requirement must have a case for.</summary>
    public static readonly IReadOnlyList<string> Kinds = ["met", "not-met", "on-limit", "inside", "outside", "missing", "not-applicable", "other-units"];

    private static readonly Lazy<IReadOnlyList<CaseFile>> All = new(() =>
        [.. Directory.GetFiles(Repository.PathOf("shared", "cases"), "*.yaml").Order(StringComparer.Ordinal).Select(ReadFile)]);

    /// <summary>All case files.</summary>
    public static IReadOnlyList<CaseFile> Read() => All.Value;

    private static CaseFile ReadFile(string file)
    {
        var root = ReadMap(file);
        Known(file, root, "requirement", "base", "subject", "stage", "lacks", "cases");
        var requirement = Text(root["requirement"]) ?? throw Wrong(file, root, "no requirement");
        if (requirement != Path.GetFileNameWithoutExtension(file))
        {
            throw Wrong(file, root, $"{requirement} does not stand in a file of its name");
        }

        var basePlan = ReadMap(Path.Combine(Path.GetDirectoryName(file)!, Text(root["base"]) ?? throw Wrong(file, root, "no base")));
        var cases = ((ListNode)root["cases"]!).Items.SelectMany(item => CaseTable.Of((MapNode)item)).Select(item => ReadCase(file, item, root, requirement, basePlan)).ToList();
        if (cases.GroupBy(one => one.Says).FirstOrDefault(said => said.Count() > 1) is { } twice)
        {
            throw Wrong(file, root, $"two cases say the same sentence: {twice.Key}");
        }

        var lacks = (root["lacks"] as MapNode)?.Entries.ToDictionary(entry => entry.Name, entry => Text(entry.Value)!) ?? [];
        return new CaseFile(requirement, cases, lacks);
    }

    private static Case ReadCase(string file, MapNode node, MapNode root, string requirement, MapNode basePlan)
    {
        Known(file, node, "says", "covers", "set", "stage", "subject", "expect");
        var plan = TreeEdit.ToJson(basePlan)!;
        foreach (var change in (node["set"] as MapNode)?.Entries ?? [])
        {
            TreeEdit.Set(plan, change.Name, TreeEdit.ToJson(change.Value));
        }

        if ((Text(node["stage"]) ?? Text(root["stage"])) is { } stage)
        {
            plan["stage"] = stage;
        }

        var covers = Text(node["covers"]) ?? throw Wrong(file, node, "no covers");
        if (!Kinds.Contains(covers))
        {
            throw Wrong(file, node, $"covers {covers}; allowed: {string.Join(", ", Kinds)}");
        }

        var expect = node["expect"] switch
        {
            MapNode map => map,
            ScalarNode { Text: { } text } scalar => new MapNode([new MapEntry("outcome", new ScalarNode(text, false, scalar.Line, scalar.Column), scalar.Line, scalar.Column)], scalar.Line, scalar.Column),
            _ => throw Wrong(file, node, "no expect"),
        };
        Known(file, expect, "outcome", "severity", "found", "remedy");
        return new Case(
            requirement,
            Text(node["says"]) ?? throw Wrong(file, node, "no says"),
            covers,
            plan.ToJsonString(),
            Text(node["subject"]) ?? Text(root["subject"]) ?? "",
            Enum.Parse<Outcome>(Text(expect["outcome"])!.Replace("-", "", StringComparison.Ordinal), ignoreCase: true),
            SeverityOf(Text(expect["severity"])),
            Text(expect["found"]),
            Text(expect["remedy"]));
    }

    private static Severity? SeverityOf(string? text) => text switch
    {
        null => null,
        "stop" => Severity.StopWork,
        "hold" => Severity.HoldPoint,
        "caution" => Severity.Caution,
        "reminder" => Severity.Reminder,
        _ => throw new InvalidOperationException($"severity {text}; allowed: stop, hold, caution, reminder"),
    };

    private static MapNode ReadMap(string file)
    {
        var data = DataText.Read(File.ReadAllText(file), file);
        return data.Root as MapNode ?? throw new InvalidOperationException(string.Join(Environment.NewLine, data.Violations));
    }

    private static void Known(string file, MapNode node, params string[] names)
    {
        if (node.Entries.FirstOrDefault(entry => !names.Contains(entry.Name)) is { } unknown)
        {
            throw new InvalidOperationException($"{file}({unknown.Line},{unknown.Column}): unknown name {unknown.Name}; allowed: {string.Join(", ", names)}");
        }
    }

    private static string? Text(DataNode? node) => (node as ScalarNode)?.Text?.Trim();

    private static InvalidOperationException Wrong(string file, DataNode at, string problem) => new($"{file}({at.Line},{at.Column}): {problem}");
}
