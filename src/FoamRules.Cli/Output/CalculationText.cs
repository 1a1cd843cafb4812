using System.Collections;
using System.Text;
using FoamRules.Cli.Commands;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Readings;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Cli.Output;

/// <summary>What a calculation answers, for a person: the results with their units, then how they were worked out.</summary>
internal static class CalculationText
{
    private const string Steps = "steps", Picture = "picture";

    /// <summary>Writes a response. Its results stand under the names of the contract, how they were worked out is said in the language.</summary>
    public static string Write(IMessage response, DisplayUnits units, Tongue tongue)
    {
        var words = tongue.Language is { } language ? CommonOptions.OpenWords(CommonOptions.RulesFolder, language) : null;
        var output = new StringBuilder();
        Fields(output, response, "", units);
        output.AppendLine().AppendLine(tongue.Say("HOW IT WAS WORKED OUT"));
        foreach (Contract.WorkedStep step in (IList)response.Descriptor.FindFieldByName(Steps).Accessor.GetValue(response))
        {
            Step(output, ReportMapper.StepOf(step), units, words, tongue);
        }

        return output.ToString().TrimEnd();
    }

    private static void Fields(StringBuilder output, IMessage message, string indent, DisplayUnits units)
    {
        var fields = Shown(message).ToList();
        var widest = fields.Where(field => !HasBlock(field)).Select(field => Label(field).Length).DefaultIfEmpty().Max();
        foreach (var field in fields)
        {
            var value = field.Accessor.GetValue(message);
            if (!HasBlock(field))
            {
                Paragraph.Write(output, indent + Label(field).PadRight(widest + 2), Inline(value, field, units));
                continue;
            }

            output.AppendLine(indent + Label(field));
            if (field.IsRepeated)
            {
                List(output, [.. ((IList)value).Cast<IMessage>()], indent + "  ", units);
            }
            else
            {
                Fields(output, (IMessage)value, indent + "  ", units);
            }
        }
    }

    // An entry a line: its first text as its name, then its values.
    private static void List(StringBuilder output, IReadOnlyList<IMessage> entries, string indent, DisplayUnits units)
    {
        var named = entries.All(entry => Shown(entry).FirstOrDefault() is { FieldType: FieldType.String });
        string NameOf(int i) => named ? (string)Shown(entries[i]).First().Accessor.GetValue(entries[i]) : (i + 1) + ".";
        var widest = Enumerable.Range(0, entries.Count).Max(i => NameOf(i).Length);
        for (var i = 0; i < entries.Count; i++)
        {
            var rest = Shown(entries[i]).Skip(named ? 1 : 0).ToList();
            // A name and one value need no label.
            var text = named && entries[i].Descriptor.Fields.InDeclarationOrder().Count == 2
                ? string.Join("", rest.Select(field => Inline(field.Accessor.GetValue(entries[i]), field, units)))
                : Values(entries[i], rest, units);
            Paragraph.Write(output, indent + NameOf(i).PadRight(widest + 2), text);
        }
    }

    private static string Inline(object value, FieldDescriptor field, DisplayUnits units)
    {
        if (field.IsRepeated)
        {
            return string.Join(", ", ((IList)value).Cast<object>().Select(entry => One(entry, field, units)));
        }

        return One(value, field, units);
    }

    private static string One(object value, FieldDescriptor field, DisplayUnits units) =>
        MessageText.Show(value, field, units) ?? $"({Values((IMessage)value, Shown((IMessage)value), units)})";

    private static string Values(IMessage message, IEnumerable<FieldDescriptor> fields, DisplayUnits units) =>
        string.Join(", ", fields.Select(field => $"{Label(field)} {Inline(field.Accessor.GetValue(message), field, units)}"));

    private static void Step(StringBuilder output, WorkedStep step, DisplayUnits units, ReadingWords? words, Tongue tongue)
    {
        Paragraph.Write(output, "  ", $"{words?.Step(step.Name) ?? step.Name}{words?.Colon ?? ": "}{MeasureText.Show(step.Result, units)}");
        Paragraph.Write(output, "      ", words?.Formula(step.Formula) ?? step.Formula);
        if (!step.Inputs.IsEmpty)
        {
            var terms = step.Inputs.Select(term => $"{words?.Symbol(term.Symbol) ?? term.Symbol} = {MeasureText.Show(term.Value, units)} ({tongue.Say(words?.Step(term.Meaning) ?? term.Meaning)})");
            Paragraph.Write(output, $"      {tongue.Say("with")} ", string.Join(", ", terms));
        }

        Paragraph.Write(output, $"      {tongue.Say("Source:")} ", step.Source);
    }

    private static bool HasBlock(FieldDescriptor field) =>
        field.FieldType == FieldType.Message && !IsSingle(field.MessageType);

    private static bool IsSingle(MessageDescriptor type) => type.File == Contract.QuantitiesReflection.Descriptor || type == Contract.Measure.Descriptor;

    // What is given; instants stand beside what the site's clock shows, which is what a person reads.
    private static IEnumerable<FieldDescriptor> Shown(IMessage message) => message.Descriptor.Fields.InDeclarationOrder().Where(field =>
        field.Name is not (Steps or Picture)
        && (field.FieldType != FieldType.Message || field.MessageType != Timestamp.Descriptor)
        && IsGiven(field, field.Accessor.GetValue(message), message));

    private static bool IsGiven(FieldDescriptor field, object? value, IMessage message) => value switch
    {
        IList list => list.Count > 0,
        string text => text.Length > 0,
        System.Enum => MessageText.Show(value, field, DisplayUnits.Si) is { Length: > 0 },
        _ => !field.HasPresence || field.Accessor.HasValue(message),
    };

    private static string Label(FieldDescriptor field) => field.Name.Replace('_', ' ');
}
