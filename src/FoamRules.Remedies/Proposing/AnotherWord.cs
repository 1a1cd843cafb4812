using System.Collections;
using System.Globalization;
using FoamRules.Exchange.Editing;
using Google.Protobuf.Reflection;

namespace FoamRules.Remedies.Proposing;

/// <summary>A chosen word is changed for another. Where the finding names the words that would do, only those are tried.</summary>
internal sealed class AnotherWord : IProposer
{
    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation) => situation.Choices.Where(spot => spot.Field.FieldType == FieldType.Enum)
        .SelectMany(spot => Words(situation, spot).Select(word => new Proposal(spot.Path, spot.Field.IsRepeated ? Added(spot, word) : word)));

    private static IEnumerable<int> Words(Situation situation, PlanSpot spot)
    {
        var named = situation.Finding.Limit?.Value.Text;
        return spot.Field.EnumType.Values
            .Where(word => word.Number != 0 && word.Number != NumberOf(spot.Value) && !IsNone(word))
            .Where(word => named is null || named.Split(", ").Any(one => one.Replace(' ', '-') == spot.WordOf(word.Number)))
            .Select(word => word.Number);
    }

    // What is worn or put up already stays, but for the word that says that there is nothing.
    private static List<object> Added(PlanSpot spot, int word)
    {
        var none = spot.Field.EnumType.Values.FirstOrDefault(IsNone)?.Number;
        var kept = (spot.Value as IList ?? Array.Empty<object>()).Cast<object>().Where(one => NumberOf(one) != none && NumberOf(one) != word);
        return [.. kept, word];
    }

    // That there is nothing is what a finding is about, and never what clears one.
    private static bool IsNone(EnumValueDescriptor word) => word.Name.EndsWith("_NONE", StringComparison.Ordinal);

    private static int? NumberOf(object? value) => value is Enum word ? Convert.ToInt32(word, CultureInfo.InvariantCulture) : null;
}
