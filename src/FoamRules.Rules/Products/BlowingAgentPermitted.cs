using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>
/// product.blowing-agent-permitted: the blowing agent's global warming potential lies under the jurisdiction's limit, or every
/// lot was made before the limit's date for making and bought before its date for selling. The work date is not the test.
/// Where no rule set in use gives a limit nothing is known, and it is not met.
/// </summary>
public sealed class BlowingAgentPermitted(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    private readonly Limit? _potential = spec.Limits.GetValueOrDefault("potential");
    private readonly Limit? _made = spec.Limits.GetValueOrDefault("made-before");
    private readonly Limit? _bought = spec.Limits.GetValueOrDefault("bought-before");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var plan = bearer.Job.Plan;
        if (_potential is null || _made is null || _bought is null)
        {
            return NoLimit(plan);
        }

        // Each country has dates of its own: where it is not known, keeping those that the rule sets know shows nothing.
        var verdict = Judge(bearer.Product, _potential, _made, _bought);
        return verdict.Outcome == Outcome.Met && plan.Jurisdiction?.Country is null ? NoLimit(plan) : verdict;
    }

    private static Verdict Judge(Product sheet, Limit potential, Limit made, Limit bought)
    {
        // "Under": the limit itself is already too much.
        if (sheet.GlobalWarmingPotential < potential.Factor)
        {
            return Potential(sheet, Verdict.Met(), potential);
        }

        var lots = sheet.Lots.IsEmpty
            ? Verdict.Missing(sheet, nameof(Product.Lots))
            : Verdict.Worst(sheet.Lots.SelectMany(lot => new[]
            {
                Before(lot, nameof(Lot.Made), lot.Made, made, "made-late"),
                Before(lot, nameof(Lot.Bought), lot.Bought, bought, "bought-late"),
            }));
        return sheet.GlobalWarmingPotential is null && lots.Outcome != Outcome.Met
            ? Verdict.Missing([new FieldRef(sheet, nameof(Product.GlobalWarmingPotential)), .. lots.MissingFields])
            : Potential(sheet, lots, potential);
    }

    private static Verdict NoLimit(Plan plan) => plan.Jurisdiction switch
    {
        null => Verdict.Missing(plan, nameof(Plan.Jurisdiction)),
        { Country: null } jurisdiction => Verdict.Missing(jurisdiction, nameof(Jurisdiction.Country)),
        { Country: { } country } => Verdict.Undetermined("no-limit").With("country", country),
    };

    private static Verdict Before(Lot lot, string property, DateOnly? day, Limit date, string late)
    {
        if (day is not { } given)
        {
            return Verdict.Missing(lot, property);
        }

        return (given < date.Date ? Verdict.Met() : Verdict.NotMet(late)).On(lot, property, Measure.OfDate(given))
            .With("lot", LotName.Of(lot)).With("day", Measure.OfDate(given)).With("date", date.Value).RestingOn(date);
    }

    private static Verdict Potential(Product sheet, Verdict verdict, Limit limit) => sheet.GlobalWarmingPotential is { } potential
        ? (verdict with { Value = Measure.OfFactor(potential), Limit = limit }).On(sheet, nameof(Product.GlobalWarmingPotential), Measure.OfFactor(potential))
        : verdict;
}
