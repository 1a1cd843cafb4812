using System.Linq.Expressions;
using System.Text;
using System.Text.RegularExpressions;
using FoamRules.Exchange;
using FoamRules.Exchange.Calculating;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Declared;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Fuzz;

/// <summary>All doors.</summary>
public static partial class Doors
{
    private static readonly ReadOptions s_now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    // A plan that is read is judged, too, but not each: judging takes a hundred times as long as reading.
    private const int JudgedOneIn = 500;

    // To compile takes a hundred times as long as to read and to type.
    private const int CompiledOneIn = 200;

    private static readonly Dictionary<string, Limit> s_noLimits = [];
    private static readonly ExpressionInput s_input = new() { Plan = new Plan(), Site = new Site(), Gear = new Gear(), Area = new WorkArea() };

    private static readonly string[] s_common =
    [
        "", " ", "\n", "\t", "\0", "\r\n", "\ufeff", "\ud800", "null", "true", "-0", "0", "-1", "1e308", "-1e-400", "1e999", "NaN", ".inf", "9223372036854775808", "0x10", "1_000", "١٢",
        "2026-02-30", "2026-02-29T25:61:00Z", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59.999999999Z", "é", "\u202e", "𝔣", "'", "\"", "\\", "\\u0000", "\\ud800",
    ];

    private static readonly string[] s_yaml = [.. s_common, "- ", ": ", "? ", "&a ", "*a", "<<: *a", "|\n", ">-\n", "!!binary ", "!!str ", "%YAML 1.2\n", "---\n", "...\n", "#", "{", "}", "[", "]", ",", "  ", "[[[[[[[[", "{a: {a: {a: {"];
    private static readonly string[] s_json = [.. s_common, "{", "}", "[", "]", ":", ",", "{\"a\":", "[[[[[[[[", "//", "/*", "\"inches\"", "\"id\"", "{}", "[]"];
    private static readonly string[] s_expression = [.. s_common, "(", ")", "[", "]", "{", "}", "&&", "||", "!", "?", ":", "==", "<=", "in", ".all(x, ", ".exists(x, ", ".filter(x, ", ".map(x, ", ".size()", "has(", "area.", "plan.", "work.", "limit.", "feet(", "duration(", "timestamp(", "matches(", "0u", "b'", "r'", "'''", "((((((((((((((((", "!!!!!!!!!!!!", "a.b.c.d.e.f"];
    private static readonly byte[][] s_bytes = [[0], [0xff], [0x7f], [0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x01], [0x0a, 0xff, 0xff, 0xff, 0xff, 0x0f], [0x0b], [0x0c], [0x12, 0x00], [0x09, 0, 0, 0, 0, 0, 0, 0xf8, 0x7f], [0x09, 0, 0, 0, 0, 0, 0, 0xf0, 0x7f], [0x09, 0, 0, 0, 0, 0, 0, 0, 0x80], [0x0a, 0x02, 0xc3, 0x28]];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<Door> All { get; } = [PlanBytes(), PlanText("plan-yaml", ".yaml"), PlanText("plan-json", ".json"), Calculations(), RuleSets(), Expressions()];

    private static IEnumerable<(string Text, Contract.Plan Message)> Plans()
    {
        // Cases are small and come in every shape; the example plans are larger.
        var texts = CaseFiles.Read().SelectMany(file => file.Cases).Where((_, at) => at % 7 == 0).Select(one => one.PlanJson)
            .Concat(Directory.EnumerateFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(File.ReadAllText));
        foreach (var text in texts)
        {
            if (PlanReader.ReadText(text, null, s_now).Message is { } message)
            {
                yield return (text, message);
            }
        }
    }

    private static Door PlanBytes()
    {
        var turn = 0;
        return new Door("plan-bytes", new(() => [.. Plans().Select(plan => plan.Message.ToByteArray())]), s_bytes, input =>
        {
            Contract.Plan message;
            try
            {
                message = Contract.Plan.Parser.ParseFrom(input);
            }
            catch (InvalidProtocolBufferException)
            {
                return false;
            }

            return Judge(PlanReader.ReadMessage(message, s_now), ref turn);
        });
    }

    private static Door PlanText(string name, string extension)
    {
        var turn = 0;
        var json = extension == ".json";
        return new Door(name, new(() => Door.Bytes(Plans().Select(plan => json ? JsonFormatter.Default.Format(plan.Message) : plan.Text).Where(text => text.Length < 6000))), Door.Bytes(json ? s_json : s_yaml), input => Judge(PlanReader.ReadText(Encoding.UTF8.GetString(input), "plan" + extension, s_now), ref turn));
    }

    private static bool Judge(PlanRead read, ref int turn)
    {
        if (read.Plan is null)
        {
            return read.Violations.Count > 0 ? false : throw new InvalidOperationException("a plan that cannot be read, and nothing said");
        }

        if (turn++ % JudgedOneIn == 0)
        {
            var result = Repository.Engine.Check(read.Plan, new CheckOptions(read.Digest));
            if (result.Report is { } report)
            {
                // What goes out must be writable on every way out.
                _ = JsonFormatter.Default.Format(ReportMapper.ToMessage(report));
            }
            else if (result.Violations.Count == 0)
            {
                throw new InvalidOperationException("a plan that was not judged, and nothing said");
            }
        }

        return true;
    }

    private static Door Calculations()
    {
        var calculators = Calculators.All.ToArray();
        // The first byte says which calculation.
        var corpus = calculators.Select((calculator, at) => (byte[])[(byte)at, .. Request(calculator).ToByteArray()]);
        return new Door("calculation", new(() => [.. corpus]), s_bytes, input =>
        {
            if (input.Length == 0)
            {
                return false;
            }

            var calculator = calculators[input[0] % calculators.Length];
            IMessage request;
            try
            {
                request = calculator.Request.Parser.ParseFrom(input.AsSpan(1).ToArray());
            }
            catch (InvalidProtocolBufferException)
            {
                return false;
            }

            var answer = calculator.Calculate(request);
            if (answer is { Response: null, Refusal: null, Violations.Count: 0 })
            {
                throw new InvalidOperationException("no answer, and nothing said");
            }

            if (answer.Response is { } response)
            {
                _ = JsonFormatter.Default.Format(response);
            }

            return answer.Response is not null;
        });
    }

    private static IMessage Request(Calculator calculator)
    {
        var request = calculator.Request.Parser.ParseFrom(ByteString.Empty);
        _ = MessageReader.Read(DataText.Read(CalculationExamples.TextOf(calculator.Name), null).Root!, request, null);
        return request;
    }

    private static Door RuleSets()
    {
        var library = Repository.Engine.Library;
        var set = RuleSetFiles.InFolder(Repository.PathOf("rulesets", "example-company"));
        var turn = 0;
        // The first byte says which file of the set it stands for.
        var corpus = set.Files.SelectMany((file, at) => new[] { (byte[])[(byte)at, .. Encoding.UTF8.GetBytes(file.Text)] });
        return new Door("rule-set", new(() => [.. corpus]), Door.Bytes([.. s_yaml, .. s_expression]), input =>
        {
            if (input.Length == 0)
            {
                return false;
            }

            var at = input[0] % set.Files.Length;
            var text = Encoding.UTF8.GetString(input.AsSpan(1));
            var draft = new RuleSetFiles(set.Id, [.. set.Files.Select((file, other) => other == at ? file with { Text = text } : file)]);
            var read = RuleSetReader.Read(draft);
            if (read.RuleSet is null)
            {
                return read.Violations.Count > 0 ? false : throw new InvalidOperationException("a rule set that cannot be read, and nothing said");
            }

            if (turn++ % 20 == 0 && library.With(draft, out var violations) is null && violations.Count == 0)
            {
                throw new InvalidOperationException("a rule set that is refused, and nothing said");
            }

            return true;
        });
    }

    private static Door Expressions()
    {
        var turn = 0;
        var corpus = Directory.EnumerateFiles(Repository.PathOf("rulesets"), "*.yaml", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .SelectMany(file => Declared().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value))
            .Concat(Conformance().Matches(File.ReadAllText(Repository.PathOf("shared", "check-values", "cel-conformance.json"))).Select(match => match.Groups[1].Value.Replace("\\\"", "\"", StringComparison.Ordinal)));
        return new Door("expression", new(() => Door.Bytes(corpus)), Door.Bytes(s_expression), input =>
        {
            try
            {
                var binder = new Binder(ExpressionScope.Of(DeclaredBearer.Area, s_noLimits));
                var bound = binder.Bind(SyntaxReader.Read(Encoding.UTF8.GetString(input)));
                if (turn++ % CompiledOneIn == 0)
                {
                    var boxed = Expression.Convert(bound.Code, typeof(object));
                    _ = Expression.Lambda<Func<Frame, object>>(boxed, binder.Frame).Compile()(new Frame(s_input));
                }

                return true;
            }
            catch (ExpressionException)
            {
                return false;
            }
        });
    }

    [GeneratedRegex("^ +(?:met|applies): \"(.+)\"$", RegexOptions.Multiline)]
    private static partial Regex Declared();

    [GeneratedRegex("\"expr\": *\"((?:[^\"\\\\]|\\\\.)*)\"")]
    private static partial Regex Conformance();
}
