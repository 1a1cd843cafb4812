using System.Text.RegularExpressions;

namespace FoamRules.Model;

/// <summary>An input outside the range in which a formula holds: no number is given for it.</summary>
public sealed partial record Refusal
{
    private readonly Said _input, _allowed, _why;

    /// <summary>An input outside the range in which a formula holds.</summary>
    /// <param name="input">The input that is out of range, such as "air temperature".</param>
    /// <param name="found">The value given.</param>
    /// <param name="allowed">The range in words with units, such as "−100 to 200 °C".</param>
    /// <param name="why">Why the formula does not hold there.</param>
    public Refusal(Said input, Measure found, string allowed, Said why) => (_input, Found, _allowed, _why) = (input, found, Range(allowed), why);

    /// <summary>The input that is out of range.</summary>
    public string Input => _input.ToString();

    /// <summary>The value given.</summary>
    public Measure Found { get; }

    /// <summary>The range in words with units.</summary>
    public string Allowed => _allowed.ToString();

    /// <summary>Why the formula does not hold there.</summary>
    public string Why => _why.ToString();

    /// <summary>The whole in a sentence that names the range, and that each language can say.</summary>
    /// <param name="units">The unit system of the value found; the range stands as the calculation names it.</param>
    public Said Sentence(DisplayUnits units) => $"{_input}: found {(Found.Text is { } word ? word : Said.Name(MeasureText.Show(Found, units)))}; allowed: {_allowed}; {_why}";

    /// <summary>A range whose numbers are parts, each with its unit: a language then needs the form alone, such as <c>{0} to {1}</c>.</summary>
    /// <param name="words">The range, such as <c>0.1 mm to 1 m</c>.</param>
    public static Said Range(string words)
    {
        var (range, at) = (new Said(words.Length, 0), 0);
        foreach (Match number in Number().Matches(words))
        {
            range.AppendLiteral(words[at..number.Index]);
            range.AppendFormatted(number.Value);
            at = number.Index + number.Length;
        }

        range.AppendLiteral(words[at..]);
        return range;
    }

    // A number that is no part of a name such as HSS6X6X3/8, and the unit behind it.
    [GeneratedRegex(@"(?<![\w/.])[−-]?[0-9](?:[0-9.,]*[0-9])?(?![\w/])(?: (?:%|°C|K|J/\(kg K\)|W/\(m² K\)|W/\(m K\)|m³/\(mol s\)|m² K/W|(?:mol|kg)/m³|k?J/(?:mol|kg)|m/s|[gt]/s|[mk]?m[²³]?|in|s|h|t|k?Pa|dBA?|ppm)(?![\w/(²³]))?")]
    private static partial Regex Number();
}
