using System.CommandLine;
using System.Globalization;
using FoamRules.Cli.Output;
using FoamRules.Model;
using FoamRules.Rules.Catalogue;
using FoamRules.RuleSets;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rule-set check</c>: what is wrong with a rule set or, where nothing is, what it changes.</summary>
internal static class RuleSetCheckCommand
{
    public static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "the folder of the rule set; its name is the rule set's id" };
        var units = CommonOptions.Units();
        var rules = CommonOptions.Rules();
        var command = new Command("check", """
            Reads a rule set against the others, as the service would. Says what is wrong, each with file:line:column, or what the
            rule set changes against those that it stands above. Exit code 0: it loads; 2: it does not.

            Example:
              foamrules rule-set check my-company
            """)
        {
            folder, units, rules,
        };
        command.SetAction(parsed =>
        {
            var path = parsed.GetValue(folder)!;
            if (!Directory.Exists(path))
            {
                Console.Error.WriteLine($"{path}: no such folder");
                return ExitCode.Unusable;
            }

            return CommonOptions.OpenEngine(parsed.GetValue(rules)!) is { } engine
                ? Check(new RuleCatalogue(engine), path, CommonOptions.UnitsOf(parsed.GetValue(units))!.Value)
                : ExitCode.Unusable;
        });
        return command;
    }

    private static int Check(RuleCatalogue catalogue, string path, DisplayUnits units)
    {
        RuleSetFiles files;
        try
        {
            files = RuleSetFiles.InFolder(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"{path}: {error.Message}");
            return ExitCode.Unusable;
        }

        var draft = catalogue.Check(files, units);
        if (draft.RuleSet is not { } set)
        {
            foreach (var violation in draft.Violations)
            {
                Console.Error.WriteLine(Line(violation, files.Id, path));
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{files.Id} does not load: {draft.Violations.Count} to mend"));
            return ExitCode.Unusable;
        }

        Console.Out.Write(DifferenceText.Draft(set, draft.Differences, draft.Relaxations));
        return ExitCode.Proceed;
    }

    // As compilers write it, so that an editor jumps there; the draft's own files by the path that was given.
    private static string Line(Violation violation, string id, string path)
    {
        var file = violation.File is { } name && name.StartsWith(id + "/", StringComparison.Ordinal) ? Path.Combine(path, name[(id.Length + 1)..]) : violation.File ?? path;
        return string.Create(CultureInfo.InvariantCulture, $"{file}:{Math.Max(1, violation.Line)}:{Math.Max(1, violation.Column)}: {violation with { File = null, Line = 0 }}");
    }
}
