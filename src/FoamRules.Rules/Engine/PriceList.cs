using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>
/// What must be in the price, at quote and at plan: a line for whatever a requirement asks for, with its quantity, or with what is
/// missing for it. A requirement asks whatever the stage at which it is judged: what is judged on site must be paid for before.
/// </summary>
internal sealed class PriceList(RuleNetwork network, JobFacts job, Wording wording, IReadOnlyList<IHazard<Bearer>> hazards, IReadOnlyList<Assessment> assessments)
{
    private readonly Dictionary<string, IRequirement> _requirements = network.Requirements.ToDictionary(requirement => requirement.Spec.Id);
    private readonly Dictionary<string, PriceEntry> _said = wording.Book.Prices.ToDictionary(entry => entry.Id);
    private readonly HashSet<(HazardKind, Bearer)> _arisen = [.. hazards.Select(hazard => (hazard.Kind, hazard.Bearer))];
    private readonly HashSet<(IRequirement, Bearer)> _ruledOut =
        [.. assessments.Where(assessment => assessment.Verdict?.Outcome == Outcome.NotApplicable).Select(assessment => (assessment.Requirement, assessment.Bearer))];
    private readonly Dictionary<(IRequirement, Bearer), bool> _asked = [];

    /// <summary>The lines, in the order of the rule sets' list.</summary>
    public ImmutableArray<PriceLine> Lines() => job.Stage is Stage.Quote or Stage.Plan ? [.. network.Prices.Entries.SelectMany(LinesOf)] : [];

    private IEnumerable<PriceLine> LinesOf(PriceEntry entry)
    {
        // A network of some of the requirements has the lines of those.
        if (!_requirements.TryGetValue(entry.AskedBy, out var requirement))
        {
            return [];
        }

        var kind = PriceQuantityKind.All[entry.Quantity];
        // What is asked once of whatever the requirement is judged on belongs to just that.
        var isOfRequirement = entry.Quantity is "once" or "limit";
        return job.All.Where(bearer => (isOfRequirement ? requirement.Covers(bearer) : kind.Covers(bearer)) && IsAsked(requirement, bearer))
            .Select(bearer => LineOf(entry, requirement, kind, bearer)).OfType<PriceLine>();
    }

    private bool IsAsked(IRequirement requirement, Bearer bearer) => requirement.Covers(bearer)
        ? IsAskedOf(requirement, bearer)
        : job.All.Any(other => requirement.Covers(other) && IsOf(bearer, other) && IsAskedOf(requirement, other));

    // Found once: many pieces of work look at the same area, people and job.
    private bool IsAskedOf(IRequirement requirement, Bearer bearer)
    {
        if (!_asked.TryGetValue((requirement, bearer), out var asked))
        {
            asked = _arisen.Contains((requirement.Answers, bearer)) && !_ruledOut.Contains((requirement, bearer)) && Applies(requirement, bearer);
            _asked.Add((requirement, bearer), asked);
        }

        return asked;
    }

    // What is asked of an area is asked of the work in it, and of no work elsewhere.
    private static bool IsOf(Bearer bearer, Bearer asked) => (bearer, asked) is not (WorkFacts work, AreaFacts area) || work.Area == area;

    // A condition that fails does not take the line out of the price.
    private static bool Applies(IRequirement requirement, Bearer bearer)
    {
        try
        {
            return requirement.ReasonNotApplicable(bearer) is null;
        }
#pragma warning disable CA1031 // The finding says what failed.
        catch (Exception)
#pragma warning restore CA1031
        {
            return true;
        }
    }

    private PriceLine? LineOf(PriceEntry entry, IRequirement requirement, PriceQuantityKind kind, Bearer bearer)
    {
        var line = new PriceLine { Id = entry.Id, Subject = bearer.Subject, What = _said[entry.Id].What, Requirement = entry.AskedBy, Unit = entry.Unit };
        try
        {
            return kind.Of(new PriceInputs(network, entry, requirement.Spec), bearer) is not { } quantity ? null : line with
            {
                Quantity = quantity.Amount,
                AtLeast = quantity is { AtLeast: true, Amount: not null },
                How = How(_said[entry.Id], quantity),
                Missing = [.. quantity.Missing.Select(field => field.Path).Distinct()],
                Steps = quantity.Steps,
            };
        }
#pragma warning disable CA1031 // A quantity that fails must not take the report with it, and must not vanish either.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            return line with { How = $"{wording.Text("number-failed")}: {fault.GetType().Name}: {fault.Message}" };
        }
    }

    private string How(PriceEntry entry, PriceQuantity quantity)
    {
        var missing = string.Join(", ", quantity.Missing.Select(field => field.Path).Distinct());
        var text = quantity.Way is { } way ? entry.How[way]
            : quantity.Words.ContainsKey("input") ? wording.Text("out-of-range")
            : quantity.Missing.IsEmpty ? wording.Text("price-open")
            : wording.Text("price-unknown", ("missing", missing));
        var how = quantity.Words.Aggregate(text, (filled, word) => filled.Replace($"{{{word.Key}}}", wording.Show(word.Value), StringComparison.Ordinal)).Trim();
        return quantity is { AtLeast: true, Amount: not null, Missing.IsEmpty: false } ? wording.Text("price-least", ("how", how), ("missing", missing)) : how;
    }
}
