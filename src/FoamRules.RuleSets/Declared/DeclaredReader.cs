using FoamRules.Text;

namespace FoamRules.RuleSets.Declared;

/// <summary>Reads how a requirement is judged: <c>bearer</c>, <c>hazard</c>, <c>applies</c>, <c>met</c> and <c>needs</c>.</summary>
internal static class DeclaredReader
{
    private static readonly string[] Names = ["bearer", "hazard", "applies", "met", "needs"];

    /// <summary>What the entry declares; null where it declares nothing, or where what it declares cannot be read.</summary>
    public static DeclaredRule? Read(EntryReader reader, Problems problems)
    {
        if (Names.Select(reader.Child).All(child => child is null))
        {
            return null;
        }

        var word = reader.RequiredText("bearer");
        var bearer = Enum.GetValues<DeclaredBearer>().Cast<DeclaredBearer?>().FirstOrDefault(one => string.Equals(one.ToString(), word, StringComparison.OrdinalIgnoreCase));
        if (bearer is null && word.Length > 0)
        {
            var allowed = string.Join(", ", Enum.GetNames<DeclaredBearer>()).ToLowerInvariant();
            problems.Add(reader.Child("bearer")!, $"{reader.Path}.bearer", $"`{word}`", allowed, "say what the requirement is judged on");
        }

        var hazard = reader.RequiredText("hazard");
        var met = Expression(reader, "met", problems);
        if (met is null && reader.Child("met") is null)
        {
            problems.Add(reader.Node, $"{reader.Path}.met", "nothing", "an expression", "say when the requirement is met");
        }

        var needs = reader.Texts("needs") ?? [];
        return bearer is { } known && met is not null && hazard.Length > 0
            ? new DeclaredRule
            {
                Bearer = known,
                Hazard = hazard,
                Applies = Expression(reader, "applies", problems),
                Met = met,
                Needs = [.. needs.Select(need => ExpressionText.Read((ScalarNode)need.Node, $"{reader.Path}.needs", problems))],
                Place = problems.Place(reader.Child("hazard")!, $"{reader.Path}.hazard"),
            }
            : null;
    }

    private static ExpressionText? Expression(EntryReader reader, string name, Problems problems)
    {
        switch (reader.Child(name))
        {
            case null:
                return null;
            case ScalarNode { Text: not null } node:
                return ExpressionText.Read(node, $"{reader.Path}.{name}", problems);
            case { } other:
                problems.Add(other, $"{reader.Path}.{name}", "a mapping or a list", "an expression", "write one expression, in double quotes");
                return null;
        }
    }
}
