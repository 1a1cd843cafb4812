using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>The names of the contract's enum values, as a person writes them: <c>closed-cell-pour</c>, or the contract's own.</summary>
internal static class EnumWords
{
    /// <summary>The short names of all values.</summary>
    public static IEnumerable<string> Of(Type type) => Enum.GetNames(type).Select(Short);

    /// <summary>The short name of a value.</summary>
    public static string Short(string name) => PathStep.FieldName(name).Replace('_', '-');

    /// <summary>The number of a value by its short name, or by the contract's with or without the enum's.</summary>
    public static int? Find(Type type, string word)
    {
        var folded = Fold(word);
        var name = Enum.GetNames(type).FirstOrDefault(name => folded == Fold(name) || folded == Fold(type.Name + name));
        return name is null ? null : (int)Enum.Parse(type, name);
    }

    private static string Fold(string word) => word.Replace("-", "", StringComparison.Ordinal).Replace("_", "", StringComparison.Ordinal).ToUpperInvariant();
}
