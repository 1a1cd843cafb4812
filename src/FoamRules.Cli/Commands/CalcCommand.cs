using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.Exchange;
using FoamRules.Exchange.Calculating;
using FoamRules.Model;
using Google.Protobuf;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules calc</c>: a calculation for itself, without a plan.</summary>
internal static class CalcCommand
{
    public static Command Create()
    {
        var name = new Argument<string?>("NAME") { Description = "the calculation; all are listed where it is left out", Arity = ArgumentArity.ZeroOrOne };
        var input = new Option<string?>("--input") { Description = "the file with the inputs, YAML or JSON; - reads standard input; left out: the calculation is explained" };
        var units = CommonOptions.Units();
        var format = new Option<string>("--format") { Description = "text for a person, json for a program", DefaultValueFactory = _ => "text" };
        format.AcceptOnlyFromAmong("text", "json");
        var picture = new Option<string?>("--picture") { Description = "draw the result, too, into this SVG file; for pass-heat, purge and test-shots" };
        var language = CommonOptions.Language();
        var command = new Command("calc", """
            Calculates: dew point, heat in passes and pours, fill mass and seconds, purge and others, each with its worked steps.
            Exit code 0: a result; 2: unusable input, or an input outside the range in which the formula holds.

            Examples:
              foamrules calc
              foamrules calc dew-point
              foamrules calc dew-point --input air.yaml --units us
              foamrules calc dew-point --input air.yaml --language es
            """)
        {
            name, input, units, format, picture, language,
        };
        command.SetAction(parsed =>
        {
            var tongue = new Tongue(parsed.GetValue(language));
            if (parsed.GetValue(name) is not { } wanted)
            {
                return parsed.GetValue(input) is null ? List() : tongue.Unusable("--input: found no NAME of a calculation; see: foamrules calc");
            }

            if (Calculators.Find(wanted) is not { } calculator)
            {
                return tongue.Unusable($"found the unknown calculation {wanted}; allowed: {string.Join(", ", Calculators.All.Select(one => one.Name))}");
            }

            if (parsed.GetValue(input) is not { } file)
            {
                Console.Out.Write(CalculationGuide.Explain(calculator.Name));
                return ExitCode.Proceed;
            }

            return Calculate(calculator, file, CommonOptions.UnitsOf(parsed.GetValue(units))!.Value, parsed.GetValue(format) == "json", parsed.GetValue(picture), tongue);
        });
        return command;
    }

    private static int Calculate(Calculator calculator, string file, DisplayUnits units, bool json, string? picture, Tongue tongue)
    {
        if (picture is not null && !calculator.Draws)
        {
            return tongue.Unusable($"--picture: found {calculator.Name}, of which there is no picture; allowed: {string.Join(", ", Calculators.All.Where(one => one.Draws).Select(one => one.Name))}");
        }

        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            return tongue.Unusable($"{name}: {problem}");
        }

        var answer = calculator.Calculate(text, name, picture is null ? null : units);
        if (answer.Refusal is { } refusal)
        {
            return tongue.Unusable($"{name}: outside the range of {calculator.Name}; no number is given: {refusal.Sentence(units)}");
        }

        if (answer.Response is not { } response)
        {
            tongue.Unusable($"{name} cannot be used; nothing was calculated:");
            CommonOptions.WriteViolations(ViolationWords.In(answer.Violations, tongue.Language));
            return ExitCode.Unusable;
        }

        if (picture is not null && Drawn(response, picture) is { } unwritten)
        {
            return tongue.Unusable(unwritten);
        }

        Console.Out.WriteLine(json ? JsonFormatter.Default.Format(response) : CalculationText.Write(response, units, tongue));
        return ExitCode.Proceed;
    }

    // Draws into the file; answers what went wrong, or null.
    private static Said? Drawn(IMessage response, string file)
    {
        var svg = (string)response.Descriptor.FindFieldByName("picture").Accessor.GetValue(response);
        if (svg.Length == 0)
        {
            return "--picture: of this question there is no picture";
        }

        try
        {
            File.WriteAllText(file, svg);
            return null;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return $"--picture: {error.Message}";
        }
    }

    private static int List()
    {
        Console.Out.Write(CalculationGuide.List(Calculators.All.Select(calculator => calculator.Name)));
        return ExitCode.Proceed;
    }
}
