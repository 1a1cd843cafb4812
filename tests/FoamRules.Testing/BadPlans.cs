using FoamRules.Text;

namespace FoamRules.Testing;

/// <summary>A plan that cannot be read, and the paths of what is wrong with it.</summary>
/// <param name="Says">The case in a sentence.</param>
/// <param name="Text">The plan.</param>
/// <param name="Paths">The paths, in the order of their names.</param>
public sealed record BadPlan(string Says, string Text, IReadOnlyList<string> Paths)
{
    /// <summary>The bad plans of shared/bad-plans.</summary>
    public static IReadOnlyList<BadPlan> Read()
    {
        var file = Repository.PathOf("shared", "bad-plans", "cases.yaml");
        var root = (ListNode)DataText.Read(File.ReadAllText(file), file).Root!;
        return [.. root.Items.Cast<MapNode>().Select(node => new BadPlan(
            ((ScalarNode)node["says"]!).Text!,
            ((ScalarNode)node["text"]!).Text!,
            [.. ((ListNode)node["violations"]!).Items.Cast<ScalarNode>().Select(path => path.Text!).Order(StringComparer.Ordinal)]))];
    }

    /// <inheritdoc/>
    public override string ToString() => Says;
}
