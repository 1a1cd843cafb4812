using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.RuleSets;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rules</c>: lists the requirements, or explains one.</summary>
internal static class RulesCommand
{
    public static Command Create()
    {
        var id = new Argument<string?>("ID") { Description = "a requirement, or a topic such as vent; all where it is left out", Arity = ArgumentArity.ZeroOrOne };
        var ruleSets = new Option<string[]>("--rule-set") { Description = "as these rule sets state it; all that ship where it is left out" };
        var units = new Option<string?>("--units") { Description = "show limits in US customary (us) or SI units (si)" };
        units.AcceptOnlyFromAmong("us", "si");
        var rules = CommonOptions.Rules();
        var command = new Command("rules", """
            Lists and explains requirements: what must hold, the limits, the severities and the sources. Exit code 0: told; 2: there is
            none, or unusable input.

            Examples:
              foamrules rules
              foamrules rules vent
              foamrules rules vent.air-can-leave --units si
              foamrules rules fire --rule-set us-ibc-2021
            """) { id, ruleSets, units, rules };
        command.SetAction(parsed =>
        {
            if (CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return ExitCode.Unusable;
            }

            var choice = engine.Library.Choose(new RuleSetQuestion(null, null, null, parsed.GetValue(ruleSets) ?? []));
            if (choice.Violations.Length > 0)
            {
                CommonOptions.WriteViolations(choice.Violations);
                return ExitCode.Unusable;
            }

            var book = parsed.GetValue(ruleSets) is { Length: > 0 } ? RuleBook.Build(choice.Layers) : engine.Library.Everything();
            var wanted = parsed.GetValue(id);
            var chosen = book.Requirements.Values.Where(spec => wanted is null || spec.Id == wanted || spec.Topic == wanted).ToList();
            if (chosen.Count == 0)
            {
                Console.Error.WriteLine($"found no requirement `{wanted}`; `foamrules rules` lists them all");
                return ExitCode.Unusable;
            }

            var shown = parsed.GetValue(units) == "si" ? Model.DisplayUnits.Si : Model.DisplayUnits.Us;
            if (wanted is not null && chosen is [{ } one] && one.Id == wanted)
            {
                Console.Out.Write(RulesText.Explain(one, shown));
            }
            else
            {
                RulesText.WriteList(chosen);
            }

            return ExitCode.Proceed;
        });
        return command;
    }
}
