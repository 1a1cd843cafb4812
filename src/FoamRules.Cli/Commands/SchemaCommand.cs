using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using FoamRules.Exchange.Schemas;
using FoamRules.RuleSets.Schemas;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules schema</c>: the JSON Schemas with which an editor completes and checks plans and rule sets.</summary>
internal static class SchemaCommand
{
    // For files that people read; nothing here goes into a web page.
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static Command Create()
    {
        var name = new Argument<string>("NAME") { Description = "plan, or a kind of file of a rule set" };
        name.AcceptOnlyFromAmong(["plan", .. RuleSetSchema.All.Keys]);
        var command = new Command("schema", """
            Prints a JSON Schema: of plans, or of the files of a rule set (rule-set for rule-set.yaml, rule-set-topic for vent.yaml
            and its like). With it an editor completes and checks what is written.

            Example:
              foamrules schema plan > plan.schema.json
            """)
        {
            name,
        };
        command.SetAction(parsed =>
        {
            Console.Out.WriteLine(Text(parsed.GetValue(name)!));
            return ExitCode.Proceed;
        });
        return command;
    }

    private static string Text(string name)
    {
        JsonObject schema = name == "plan" ? PlanSchema.Create() : RuleSetSchema.All[name]();
        return schema.ToJsonString(Readable);
    }
}
