using System.CommandLine;
using System.Text;
using FoamRules.RuleSets;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rule-set new</c>: a commented folder to begin a rule set with. Nothing that is there is written over.</summary>
internal static class RuleSetNewCommand
{
    private const int MostCharacters = 60;

    public static Command Create()
    {
        var name = new Argument<string>("NAME") { Description = "the rule set's id: small letters, digits and hyphens" };
        var above = new Option<string>("--above") { Description = "the rule set that it stands above and may only tighten", Required = true };
        var into = new Option<string>("--in") { Description = "the folder in which its folder is made", DefaultValueFactory = _ => "." };
        var rules = CommonOptions.Rules();
        var command = new Command("new", """
            Writes a commented folder to begin a rule set with. It loads as it is and changes nothing yet. Nothing that is there is
            written over. Exit code 0: written; 2: not written.

            Example:
              foamrules rule-set new my-company --above general-practice
            """)
        {
            name, above, into, rules,
        };
        command.SetAction(parsed =>
        {
            if (CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return ExitCode.Unusable;
            }

            var (id, folder) = (parsed.GetValue(name)!, Path.Combine(parsed.GetValue(into)!, parsed.GetValue(name)!));
            var below = engine.Library.RuleSets.GetValueOrDefault(parsed.GetValue(above)!);
            var problem = id.Length is 0 or > MostCharacters || !id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')
                ? $"found the name `{id}`; allowed: small letters, digits and hyphens, at most {MostCharacters}"
                : below is null ? $"--above: found `{parsed.GetValue(above)}`; allowed: {string.Join(", ", engine.Library.RuleSets.Keys)}"
                : engine.Library.RuleSets.ContainsKey(id) ? $"there is a rule set {id} already; take another name"
                : Path.Exists(folder) ? $"{folder} is there already; nothing was written"
                : below.Level == Enum.GetValues<Level>()[^1] ? $"--above: nothing stands above the level {RuleSetWords.Of(below.Level)}"
                : null;
            if (problem is null)
            {
                problem = Write(folder, Starter(engine.Library, id, below!));
            }

            if (problem is not null)
            {
                Console.Error.WriteLine(problem);
                return ExitCode.Unusable;
            }

            Console.Out.WriteLine($"written: {folder}; next: edit it, then foamrules rule-set check {folder}");
            return ExitCode.Proceed;
        });
        return command;
    }

    private static string? Write(string folder, RuleSetFiles files)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (var (name, text) in files.Files)
            {
                using var file = new FileStream(Path.Combine(folder, name), FileMode.CreateNew);
                file.Write(Encoding.UTF8.GetBytes(text));
            }

            return null;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return $"{folder}: {error.Message}";
        }
    }

    // A count, which is written as it is read, and of the requirement's own: those of others and of groups have a point in their name.
    private static bool CanBeTheExample(Limit limit) =>
        limit.Value.Count is not null && limit.Tighter is (Tighter.Lower or Tighter.Higher) && !limit.Name.Contains('.', StringComparison.Ordinal);

    /// <summary>The files to begin with. The example in comments restates a limit that the layers below have, so that it loads too once the comment signs are gone.</summary>
    internal static RuleSetFiles Starter(RuleLibrary library, string id, RuleSet below)
    {
        var head = $"""
            # The head of this rule set. Its id is the folder's name.
            title: What people call it
            version: 0.1.0
            # One of {string.Join(", ", Enum.GetValues<Level>().Where(level => level > below.Level).Select(RuleSetWords.Of))}. A layer may only tighten those below it.
            level: {RuleSetWords.Of(below.Level < Level.Company ? Level.Company : Level.Project)}
            # The rule set that it stands above.
            above: {below.Id}
            # A draft counts only for plans that name it. Write in-force when it is to count as any other.
            status: draft
            # Without a place only plans that name it get it. With one, plans of that place get it without asking:
            # jurisdiction: {"{"} country: US, region: US-WA {"}"}
            # effective: {"{"} from: 2026-01-01, until: 2026-12-31 {"}"}

            """;
        var example = library.Stack(below.Id).Requirements.Values
            .SelectMany(spec => spec.Limits.Values.Where(CanBeTheExample).Select(limit => (spec, limit))).First();
        var kind = example.limit.Tighter == Tighter.Lower ? "at-most" : "at-least";
        var topic = $$"""
            # One file a topic; its requirements bear the topic's name. A requirement says only what it tightens or adds: the rest stands
            # as the layers below say. `foamrules rules {{example.spec.Topic}}` lists those of this topic, with their limits.
            sources:
              # read, secondary (restated by others), from-memory, common-practice or arithmetic
              {{id}}-instruction: { cite: "Which document, which edition, which section", status: common-practice }

            # Take the signs away and set your own value. Below it says: {{LimitText.Show(example.limit, Model.DisplayUnits.Si)}}.
            # {{example.spec.Id}}:
            #   limits:
            #     {{example.limit.Name}}: { {{kind}}: { count: {{example.limit.Count}} }, source: {{id}}-instruction }

            """;
        return new RuleSetFiles(id, [new RuleSetFile($"{example.spec.Topic}.yaml", topic), new RuleSetFile("rule-set.yaml", head)]);
    }
}
