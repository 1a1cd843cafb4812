using System.Collections.Immutable;

namespace FoamRules.Pages.Reports;

/// <summary>The example plans: invented jobs with generic products.</summary>
public static class ExamplePlans
{
    /// <summary>Their names.</summary>
    public static ImmutableArray<string> Names { get; } = [.. Resources.In("plans").Select(name => Path.GetFileNameWithoutExtension(name)).Order(StringComparer.Ordinal)];

    /// <summary>The one that shows most: a plan with a dozen things wrong.</summary>
    public const string First = "cold-store-dock-broken";

    /// <summary>The text of one; null where there is none of this name.</summary>
    public static string? Text(string name) => Names.Contains(name) ? Resources.Text("plans", name + ".yaml") : null;
}
