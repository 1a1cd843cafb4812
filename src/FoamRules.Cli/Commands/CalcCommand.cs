using System.CommandLine;
using FoamRules.Cli.Output;
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
        var command = new Command("calc", """
            Calculates: dew point, heat in passes and pours, fill mass and seconds, purge and others, each with its worked steps.
            Exit code 0: a result; 2: unusable input, or an input outside the range in which the formula holds.

            Examples:
              foamrules calc
              foamrules calc dew-point
              foamrules calc dew-point --input air.yaml --units us
            """)
        {
            name, input, units, format, picture,
        };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(name) is not { } wanted)
            {
                return parsed.GetValue(input) is null ? List() : Unusable("--input: found no NAME of a calculation; see: foamrules calc");
            }

            if (Calculators.Find(wanted) is not { } calculator)
            {
                return Unusable($"found the unknown calculation {wanted}; allowed: {string.Join(", ", Calculators.All.Select(one => one.Name))}");
            }

            if (parsed.GetValue(input) is not { } file)
            {
                Console.Out.Write(CalculationGuide.Explain(calculator.Name));
                return ExitCode.Proceed;
            }

            return Calculate(calculator, file, CommonOptions.UnitsOf(parsed.GetValue(units))!.Value, parsed.GetValue(format) == "json", parsed.GetValue(picture));
        });
        return command;
    }

    private static int Calculate(Calculator calculator, string file, DisplayUnits units, bool json, string? picture)
    {
        if (picture is not null && !calculator.Draws)
        {
            return Unusable($"--picture: found {calculator.Name}, of which there is no picture; allowed: {string.Join(", ", Calculators.All.Where(one => one.Draws).Select(one => one.Name))}");
        }

        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            return Unusable($"{name}: {problem}");
        }

        var answer = calculator.Calculate(text, name, picture is null ? null : units);
        if (answer.Refusal is { } refusal)
        {
            return Unusable($"{name}: outside the range of {calculator.Name}; no number is given: {MeasureText.Show(refusal, units)}");
        }

        if (answer.Response is not { } response)
        {
            Console.Error.WriteLine($"{name} cannot be used; nothing was calculated:");
            CommonOptions.WriteViolations(answer.Violations);
            return ExitCode.Unusable;
        }

        if (picture is not null && Drawn(response, picture) is { } unwritten)
        {
            return Unusable(unwritten);
        }

        Console.Out.WriteLine(json ? JsonFormatter.Default.Format(response) : CalculationText.Write(response, units));
        return ExitCode.Proceed;
    }

    // Draws into the file; answers what went wrong, or null.
    private static string? Drawn(IMessage response, string file)
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

    private static int Unusable(string problem)
    {
        Console.Error.WriteLine(problem);
        return ExitCode.Unusable;
    }
}
