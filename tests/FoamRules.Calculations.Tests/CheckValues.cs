namespace FoamRules.Calculations.Tests;

/// <summary>Reads the published check tables in shared/check-values: a source line, a heading line, then rows.</summary>
internal static class CheckValues
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string file)
    {
        var lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "check-values", file));
        var heading = lines.First(line => !line.StartsWith('#')).Split(',');
        return lines.SkipWhile(line => line.StartsWith('#')).Skip(1)
            .Where(line => line.Length > 0)
            .Select(line => (IReadOnlyDictionary<string, string>)heading.Zip(line.Split(',')).ToDictionary(pair => pair.First, pair => pair.Second))
            .ToList();
    }
}
