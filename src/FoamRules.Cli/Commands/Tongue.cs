using FoamRules.Exchange;
using FoamRules.Model;

namespace FoamRules.Cli.Commands;

/// <summary>Says what a command answers in the language that was asked for.</summary>
/// <param name="language">The language, a tag by BCP 47; null: English.</param>
internal sealed class Tongue(string? language)
{
    private readonly IReadOnlyDictionary<string, string> _patterns = ViolationWords.Of(language ?? "");

    /// <summary>The language; null: English.</summary>
    public string? Language => language;

    /// <summary>The words in the language.</summary>
    public string Say(Said english) => english.In(_patterns);

    /// <summary>Says what is wrong; answers the exit code for it.</summary>
    public int Unusable(Said problem)
    {
        Console.Error.WriteLine(Say(problem));
        return ExitCode.Unusable;
    }
}
