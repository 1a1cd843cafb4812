using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Catalogue;
using FoamRules.RuleSets;
using Google.Protobuf;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rule-set compare</c>: what differs between two choices of rule sets, and for plans.</summary>
internal static class RuleSetCompareCommand
{
    public static Command Create()
    {
        var before = new Argument<string>("BEFORE") { Description = "rule sets before, joined by +, such as general-practice" };
        var after = new Argument<string>("AFTER") { Description = "rule sets after, joined by +" };
        var plans = new Argument<string[]>("PLAN") { Description = "plan files to judge by both; the rule sets that they name themselves do not count here", Arity = ArgumentArity.ZeroOrMore };
        var format = new Option<string>("--format") { Description = "text for a person, json for a program", DefaultValueFactory = _ => "text" };
        format.AcceptOnlyFromAmong("text", "json");
        var units = CommonOptions.Units();
        var rules = CommonOptions.Rules();
        var command = new Command("compare", """
            Says which requirements, limits and severities differ between two choices of rule sets and, given plans, which findings
            appear, vanish or change. Exit code 0: compared; 2: unusable input.

            Example:
              foamrules rule-set compare general-practice my-company jobs/*.yaml
            """)
        {
            before, after, plans, format, units, rules,
        };
        command.SetAction((parsed, cancellation) =>
        {
            if (CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return Task.FromResult(ExitCode.Unusable);
            }

            var catalogue = new RuleCatalogue(engine);
            var (was, will) = (Book(catalogue, parsed.GetValue(before)!), Book(catalogue, parsed.GetValue(after)!));
            var files = parsed.GetValue(plans) ?? [];
            var reads = files.Select(Read).OfType<Plan>().ToList();
            if (was is null || will is null || reads.Count < files.Length)
            {
                return Task.FromResult(ExitCode.Unusable);
            }

            var shown = CommonOptions.UnitsOf(parsed.GetValue(units))!.Value;
            var differences = RuleCatalogue.Compare(was, will, shown);
            var changes = reads.Select(plan => catalogue.Compare(plan, was, will, shown, cancellation)).ToList();
            if (parsed.GetValue(format) == "json")
            {
                var response = new Contract.CompareRuleSetsResponse();
                response.Differences.AddRange(differences.Select(ReportMapper.MessageOf<Contract.Difference>));
                response.Plans.AddRange(changes.Select(ReportMapper.MessageOf<Contract.PlanComparison>));
                response.Before.AddRange(RuleCatalogue.Used(was).Select(ReportMapper.MessageOf<Contract.RuleSetUsed>));
                response.After.AddRange(RuleCatalogue.Used(will).Select(ReportMapper.MessageOf<Contract.RuleSetUsed>));
                Console.Out.WriteLine(JsonFormatter.Default.Format(response));
            }
            else
            {
                Console.Out.Write(DifferenceText.Comparison(was, will, differences, changes));
            }

            return Task.FromResult(ExitCode.Proceed);
        });
        return command;
    }

    private static RuleBook? Book(RuleCatalogue catalogue, string names)
    {
        var book = catalogue.Book(names.Split('+', StringSplitOptions.TrimEntries), out var violations);
        CommonOptions.WriteViolations(violations);
        return book;
    }

    private static Plan? Read(string file)
    {
        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            Console.Error.WriteLine($"{name}: {problem}");
            return null;
        }

        var read = PlanReader.ReadText(text, name, new ReadOptions(DateTimeOffset.Now));
        if (read.Plan is null)
        {
            Console.Error.WriteLine($"{name} cannot be used; nothing was compared:");
            CommonOptions.WriteViolations(read.Violations);
        }

        return read.Plan;
    }
}
