using System.Collections;
using FoamRules.Model;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange.Calculating;

/// <summary>What a calculation answers: one of the three.</summary>
/// <param name="Response">The response with its worked steps; null where there is none.</param>
/// <param name="Refusal">Why the formula does not hold; null where it does.</param>
/// <param name="Violations">What is missing or impossible in the request; empty where nothing is.</param>
public sealed record CalculationAnswer(IMessage? Response, Refusal? Refusal, IReadOnlyList<Violation> Violations);

/// <summary>A calculation that can be asked by its name.</summary>
public sealed class Calculator
{
    private readonly Func<IMessage, Working, IMessage> _run;

    private Calculator(string name, MessageDescriptor request, Func<IMessage, Working, IMessage> run) =>
        (Name, Request, _run) = (name, request, run);

    /// <summary>Its name, such as <c>dew-point</c>.</summary>
    public string Name { get; }

    /// <summary>The message that asks for it.</summary>
    public MessageDescriptor Request { get; }

    /// <summary>True where a picture can be asked for.</summary>
    public bool Draws => PictureField is not null;

    private FieldDescriptor? PictureField => Request.FindFieldByName("picture");

    /// <summary>Calculates.</summary>
    /// <param name="request">A message of the type <see cref="Request"/>.</param>
    public CalculationAnswer Calculate(IMessage request)
    {
        var violations = FieldChecker.Check(request);
        if (violations.Count > 0)
        {
            return new CalculationAnswer(null, null, violations);
        }

        try
        {
            var working = new Working();
            var response = _run(request, working);
            var steps = (IList)response.Descriptor.FindFieldByName("steps").Accessor.GetValue(response);
            foreach (var step in working.Steps)
            {
                steps.Add(ReportMapper.StepMessage(step));
            }

            return new CalculationAnswer(response, null, []);
        }
        catch (RefusedException refused)
        {
            return new CalculationAnswer(null, refused.Refusal, []);
        }
        catch (UnusableException unusable)
        {
            return new CalculationAnswer(null, null, unusable.Violations);
        }
    }

    /// <summary>Calculates from a YAML or JSON text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">The file's name, for messages; null where there is none.</param>
    /// <param name="picture">Draw a picture with axes in these units, too; null: as the text says.</param>
    public CalculationAnswer Calculate(string text, string? file, DisplayUnits? picture = null)
    {
        var data = DataText.Read(text, file);
        if (data.Root is null)
        {
            return new CalculationAnswer(null, null, data.Violations);
        }

        var request = Request.Parser.ParseFrom(ByteString.Empty);
        var unreadable = MessageReader.Read(data.Root, request, file);
        if (picture is { } units && PictureField is { } field)
        {
            field.Accessor.SetValue(request, (Contracts.V1.DisplayUnits)units);
        }

        var answer = Calculate(request);
        var all = new LineFinder(data.Root).Join(unreadable, answer.Violations, file);
        return all.Count == 0 ? answer : new CalculationAnswer(null, null, all);
    }

    internal static Calculator Of<TRequest>(string name, Func<TRequest, Working, IMessage> run)
        where TRequest : IMessage, new() =>
        new(name, new TRequest().Descriptor, (request, working) => run((TRequest)request, working));
}
