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
        .SelectMany(spot => Options(situation, spot).Select(words => new Proposal(spot.Path, spot.Field.IsRepeated ? Added(spot, words) : words[0])));

    // Each option is one word, or for a list several that go together, such as goggles-and-face-shield.
    private static IEnumerable<List<int>> Options(Situation situation, PlanSpot spot)
    {
        var words = spot.Field.EnumType.Values.Where(word => word.Number != 0 && word.Number != NumberOf(spot.Value) && !IsNone(word)).Select(word => word.Number).ToList();
        if (situation.Finding.Limit?.Value.Text is not { } named)
        {
            return words.Select(word => new List<int> { word });
        }

        return named.Split(", ").Select(option => option.Replace(' ', '-').Split("-and-").Select(name => words.Find(word => spot.WordOf(word) == name)).ToList())
            .Where(option => !option.Contains(0) && (spot.Field.IsRepeated || option.Count == 1));
    }

    // What is worn or put up already stays, but for the word that says that there is nothing.
    private static List<object> Added(PlanSpot spot, List<int> words)
    {
        var none = spot.Field.EnumType.Values.FirstOrDefault(IsNone)?.Number;
        var kept = (spot.Value as IList ?? Array.Empty<object>()).Cast<object>().Where(one => NumberOf(one) != none && !words.Exists(word => word == NumberOf(one)));
        return [.. kept, .. words.Cast<object>()];
    }

    // That there is nothing is what a finding is about, and never what clears one.
    private static bool IsNone(EnumValueDescriptor word) => word.Name.EndsWith("_NONE", StringComparison.Ordinal);

    private static int? NumberOf(object? value) => value is Enum word ? Convert.ToInt32(word, CultureInfo.InvariantCulture) : null;
}
