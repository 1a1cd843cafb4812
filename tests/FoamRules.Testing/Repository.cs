using FoamRules.Rules.Engine;
using FoamRules.RuleSets;

namespace FoamRules.Testing;

/// <summary>The project's own files, found from wherever the tests run.</summary>
public static class Repository
{
    private static readonly Lazy<CheckEngine> SharedEngine = new(() => new CheckEngine(LoadRules()));

    /// <summary>The project's root folder.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>An engine over the rule sets that ship; one for all tests of a process, since it holds no state of a check.</summary>
    public static CheckEngine Engine => SharedEngine.Value;

    /// <summary>A file of the project.</summary>
    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>The rule sets that ship.</summary>
    /// <exception cref="InvalidOperationException">They cannot be read; the message says what is wrong.</exception>
    public static RuleLibrary LoadRules() =>
        RuleLibrary.Load(PathOf("rulesets"), out var violations) ?? throw new InvalidOperationException(string.Join(Environment.NewLine, violations));

    /// <summary>The rule sets that ship, layered as a plan of a country and of no region with rules of its own gets them.</summary>
    public static RuleBook Book(string country) => Engine.NetworkFor(Engine.Library.Choose(new RuleSetQuestion(country, "", null, []))).Book;

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "FoamRules.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("the tests run outside the project");
    }
}
