using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.Exchange;
using FoamRules.Model;
using Google.Protobuf;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules check</c>: plans in, reports out.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var plans = new Argument<string[]>("PLAN") { Description = "plan files, YAML or JSON; - reads one plan from standard input", Arity = ArgumentArity.OneOrMore };
        var stage = new Option<string?>("--stage") { Description = "judge at this stage instead of the plan's own: quote, plan, pre-start or close-out" };
        stage.AcceptOnlyFromAmong("quote", "plan", "pre-start", "close-out");
        var ruleSets = new Option<string[]>("--rule-set") { Description = "judge by this rule set too; may be given more than once", AllowMultipleArgumentsPerToken = false };
        var units = new Option<string?>("--units") { Description = "show numbers in US customary (us) or SI units (si); by the plan's country where it is left out" };
        units.AcceptOnlyFromAmong("us", "si");
        var format = new Option<string>("--format") { Description = "text for a person, json for a program: one report a line", DefaultValueFactory = _ => "text" };
        format.AcceptOnlyFromAmong("text", "json");
        var server = new Option<string?>("--server") { Description = "check on a running service, such as http://localhost:5080" };
        var all = new Option<bool>("--all") { Description = "show cautions and reminders in full, and every source" };
        var pictures = new Option<string?>("--pictures") { Description = "draw the calculations, too, as SVG files in this folder" };
        var language = new Option<string?>("--language") { Description = "the language of the report, such as es, fr or fr-CA; English where it is left out: the language of the machine is never taken" };
        var rules = CommonOptions.Rules();
        var command = new Command("check", """
            Checks plans. Exit code 0: proceed, with or without cautions; 10: hold; 20: stop; 2: unusable input.

            Examples:
              foamrules check job.yaml
              foamrules check job.yaml --stage pre-start --units us
              foamrules check job.yaml --language es
              foamrules check plans/*.yaml --format json > reports.jsonl
            """)
        {
            plans, stage, ruleSets, units, format, server, all, pictures, language, rules,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            var options = new Request(
                parsed.GetValue(stage) is { } given ? Enum.Parse<Stage>(given.Replace("-", "", StringComparison.Ordinal), ignoreCase: true) : null,
                parsed.GetValue(ruleSets) ?? [],
                CommonOptions.UnitsOf(parsed.GetValue(units)),
                parsed.GetValue(pictures),
                parsed.GetValue(language));
            using var checker = Checker.Open(parsed.GetValue(server), parsed.GetValue(rules)!);
            if (checker is null)
            {
                return ExitCode.Unusable;
            }

            var worst = ExitCode.Proceed;
            var json = parsed.GetValue(format) == "json";
            foreach (var file in parsed.GetValue(plans)!)
            {
                var code = await CheckOne(file, options, checker, json, parsed.GetValue(all), cancellation).ConfigureAwait(false);
                worst = ExitCode.Worse(worst, code);
            }

            return worst;
        });
        return command;
    }

    private static async Task<int> CheckOne(string file, Request options, Checker checker, bool json, bool all, CancellationToken cancellation)
    {
        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            Console.Error.WriteLine($"{name}: {problem}");
            return ExitCode.Unusable;
        }

        var read = PlanReader.ReadText(text, name, new ReadOptions(DateTimeOffset.Now, options.Stage));
        if (read.Plan is null)
        {
            Console.Error.WriteLine($"{name} cannot be used; nothing was judged:");
            CommonOptions.WriteViolations(read.Violations);
            return ExitCode.Unusable;
        }

        var answer = await checker.Check(read, options, cancellation).ConfigureAwait(false);
        if (answer.Report is not { } report)
        {
            Console.Error.WriteLine($"{name}: {(answer.Problem.Length > 0 ? answer.Problem : "cannot be judged:")}");
            CommonOptions.WriteViolations(answer.Violations);
            return ExitCode.Unusable;
        }

        if (options.Pictures is { } folder && PictureFiles.Write(report, name, folder) is { } unwritten)
        {
            Console.Error.WriteLine(unwritten);
            return ExitCode.Unusable;
        }

        Console.Out.WriteLine(json ? JsonFormatter.Default.Format(ReportMapper.ToMessage(report)) : ReportText.Write(report, all));
        return ExitCode.Of(report.Disposition);
    }
}

/// <summary>What the command line asks besides the plans.</summary>
/// <param name="Stage">The stage instead of the plan's own; null: the plan's own.</param>
/// <param name="RuleSets">Rule sets to judge by, too.</param>
/// <param name="Units">The units of the sentences; null: by the plan's country.</param>
/// <param name="Pictures">The folder for the pictures; null: none are drawn.</param>
/// <param name="Language">The language of the report; null: English.</param>
internal sealed record Request(Stage? Stage, IReadOnlyList<string> RuleSets, DisplayUnits? Units, string? Pictures, string? Language);
