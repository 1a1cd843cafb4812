using System.CommandLine;
using FoamRules.Cli.Commands.Service;
using FoamRules.Cli.Output;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Readings;
using FoamRules.RuleSets;

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
        var format = new Option<string>("--format") { Description = "text for a person, json (or jsonl) for a program: one report a line; sarif: for a viewer of SARIF 2.1.0; html: one file that stands alone, with the calculations drawn", DefaultValueFactory = _ => "text" };
        format.AcceptOnlyFromAmong("text", "json", "jsonl", "sarif", "html");
        var reader = new Option<string?>("--for") { Description = "arrange the text for the office, the safety officer (safety) or the crew; for anybody where it is left out" };
        reader.AcceptOnlyFromAmong("office", "safety", "crew");
        var server = new Option<string?>("--server") { Description = "check on a running service, such as http://localhost:5080" };
        var all = new Option<bool>("--all") { Description = "show cautions and reminders in full, and every source" };
        var pictures = new Option<string?>("--pictures") { Description = "draw the calculations, too, as SVG files in this folder" };
        var remedies = new Option<bool>("--remedies") { Description = "try what would put findings right on a copy of the plan, and say what was found" };
        var fix = new Option<string?>("--fix") { Description = "write the plan with the changes found into this new YAML file, comments kept; implies --remedies" };
        var language = new Option<string?>("--language") { Description = "the language of the report, such as es, fr or fr-CA; English where it is left out: the language of the machine is never taken" };
        var rules = CommonOptions.Rules();
        var command = new Command("check", """
            Checks plans. Exit code 0: proceed, with or without cautions; 10: hold; 20: stop; 2: unusable input.
            Several plans are checked on all cores and answered in their order, with a summary at the end; one that cannot be
            read does not end the others.

            Examples:
              foamrules check job.yaml
              foamrules check job.yaml --stage pre-start --units us --for crew
              foamrules check job.yaml --language es
              foamrules check plans/*.yaml --format jsonl > reports.jsonl
              foamrules check plans/*.yaml --format sarif > reports.sarif
              foamrules check job.yaml --format html --for safety > report.html
              foamrules check job.yaml --fix job-amended.yaml
            """)
        {
            plans, stage, ruleSets, units, format, reader, server, all, pictures, remedies, fix, language, rules,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            var request = new Request(
                parsed.GetValue(stage) is { } given ? Enum.Parse<Stage>(given.Replace("-", "", StringComparison.Ordinal), ignoreCase: true) : null,
                parsed.GetValue(ruleSets) ?? [],
                CommonOptions.UnitsOf(parsed.GetValue(units)),
                parsed.GetValue(pictures),
                parsed.GetValue(remedies) || parsed.GetValue(fix) is not null,
                parsed.GetValue(fix),
                parsed.GetValue(language))
            {
                Drawn = parsed.GetValue(pictures) is not null || parsed.GetValue(format) == "html",
            };
            var files = parsed.GetValue(plans)!;
            if (request.Fix is { } amended && AmendedPlan.WhyNot(files, amended) is { } refusal)
            {
                Console.Error.WriteLine(refusal.In(ViolationWords.Of(request.Language ?? "")));
                return ExitCode.Unusable;
            }

            // On another core while the rule sets are read.
            _ = Task.Run(PlanReader.Prepare, cancellation);
            using var checker = Checker.Open(parsed.GetValue(server), parsed.GetValue(rules)!, files.Length, request.Language is not null);
            if (checker is null)
            {
                return ExitCode.Unusable;
            }

            var who = parsed.GetValue(reader) is { } name ? Enum.Parse<Reader>(name, ignoreCase: true) : Reader.Anybody;
            if (parsed.GetValue(format) is "json" or "jsonl" or "sarif")
            {
                return await PlanBatch.Run(files, request, checker, parsed.GetValue(format) == "sarif" ? new SarifOutput(checker.Engine) : new JsonOutput(), cancellation).ConfigureAwait(false);
            }

            if (CommonOptions.OpenTexts(parsed.GetValue(rules)!, parsed.GetValue(language), checker.Engine?.Library.RuleSets.GetValueOrDefault(RuleLibrary.GeneralPractice)) is not { } texts)
            {
                return ExitCode.Unusable;
            }

            var output = parsed.GetValue(format) == "html" ? ServiceCommands.Html(texts, who, parsed.GetValue(all)) : new TextOutput(new ReadingWords(texts), who, parsed.GetValue(all));
            return output is null ? ExitCode.Unusable : await PlanBatch.Run(files, request, checker, output, cancellation).ConfigureAwait(false);
        });
        return command;
    }
}

/// <summary>What the command line asks besides the plans.</summary>
/// <param name="Stage">The stage instead of the plan's own; null: the plan's own.</param>
/// <param name="RuleSets">Rule sets to judge by, too.</param>
/// <param name="Units">The units of the sentences; null: by the plan's country.</param>
/// <param name="Pictures">The folder for the pictures; null: none are drawn.</param>
/// <param name="Remedies">Try what would put findings right.</param>
/// <param name="Fix">The file for the amended plan; null: none is written.</param>
/// <param name="Language">The language of the report; null: English.</param>
internal sealed record Request(Stage? Stage, IReadOnlyList<string> RuleSets, DisplayUnits? Units, string? Pictures, bool Remedies, string? Fix, string? Language)
{
    /// <summary>Draw the calculations.</summary>
    public bool Drawn { get; init; }
}
