using System.CommandLine;
using FoamRules.Exchange.Schemas;
using FoamRules.RuleSets.Schemas;
using FoamRules.Text;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules schema</c>: the JSON Schemas with which an editor completes and checks plans and rule sets.</summary>
internal static class SchemaCommand
{
    private const string Plan = "plan";

    public static Command Create()
    {
        var name = new Argument<string>("NAME") { Description = $"plan, or a kind of file of a rule set: {string.Join(", ", RuleSetSchema.All.Keys)}", HelpName = "NAME" };
        name.AcceptOnlyFromAmong([Plan, .. RuleSetSchema.All.Keys]);
        var command = new Command("schema", """
            Prints a JSON Schema: of plans, or of the files of a rule set (rule-set for rule-set.yaml, rule-set-topic for vent.yaml
            and its like). With it an editor completes and checks what is written. Exit code 0: printed; 2: there is none of this name.

            Example:
              foamrules schema plan > plan.schema.json
            """)
        {
            name,
        };
        command.SetAction(parsed =>
        {
            var wanted = parsed.GetValue(name)!;
            Console.Out.Write(ReadableJson.Write(wanted == Plan ? PlanSchema.Create() : RuleSetSchema.All[wanted]()));
            return ExitCode.Proceed;
        });
        return command;
    }
}
