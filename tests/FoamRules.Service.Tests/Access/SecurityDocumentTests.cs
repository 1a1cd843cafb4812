using System.Text.RegularExpressions;
using FoamRules.Testing;

namespace FoamRules.Service.Tests.Access;

/// <summary>Each line of the threat model names tests that there are.</summary>
public sealed partial class SecurityDocumentTests
{
    [Fact]
    public void Each_threat_names_a_test_that_exists()
    {
        var sources = Directory.GetFiles(Repository.PathOf("tests"), "*Tests.cs", SearchOption.AllDirectories).ToLookup(file => Path.GetFileNameWithoutExtension(file));
        var lines = File.ReadLines(Repository.PathOf("docs", "security.md")).Where(line => line.StartsWith("| ", StringComparison.Ordinal) && line.Count(c => c == '|') == 4)
            .Where(line => !line.StartsWith("| threat", StringComparison.Ordinal)).ToList();
        Assert.InRange(lines.Count, 10, int.MaxValue);
        foreach (var line in lines)
        {
            var tests = Test().Matches(line.Split('|')[^2]);
            Assert.True(tests.Count > 0, $"no test: {line}");
            Assert.All(tests, test => Assert.True(
                sources[test.Groups["class"].Value].Any(file => Regex.IsMatch(File.ReadAllText(file), $@"\b(Task|void) {test.Groups["method"].Value}\(")), $"there is no test {test.Value}"));
        }
    }

    [GeneratedRegex("`(?<class>[A-Za-z]+)\\.(?<method>[A-Za-z_]+)`")]
    private static partial Regex Test();
}
