using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Passes;

namespace FoamRules.Rules.Engine;

/// <summary>Quantities of the site: days, the way up, sets of supplied air, and what a requirement itself counts.</summary>
internal static class PriceListSite
{
    public static IEnumerable<KeyValuePair<string, PriceQuantityKind>> Kinds =>
    [
        PriceQuantityKind.For<Bearer>("once", (_, _) => PriceQuantity.Of(1)),
        PriceQuantityKind.For<Bearer>("limit", Limit),
        PriceQuantityKind.For<AreaFacts>("days", Days),
        PriceQuantityKind.For<AreaFacts>("access", Access, "planned", "bare", "open"),
        PriceQuantityKind.For<JobFacts>("supplied-air", SuppliedAir, "worn", "more", "none"),
    ];

    // The least that the requirement is met with.
    private static PriceQuantity Limit(PriceInputs inputs, Bearer bearer) =>
        new() { Amount = inputs.Spec.Limits[inputs.Entry.Limit!].Value, AtLeast = true };

    private static PriceQuantity Days(PriceInputs inputs, AreaFacts facts)
    {
        var days = inputs.Network.Requirements.OfType<DayHasTime>().Single().DaysOf(facts);
        return days.Gap is { } gap ? PriceQuantity.Unknown(gap) : PriceQuantity.Of(Math.Max(days.Value.Needed, days.Value.Planned)).Worked(days.Steps).With("passes", days.Value.Passes.Length);
    }

    private static PriceQuantity? Access(PriceInputs inputs, AreaFacts facts) => facts.Area.Access switch
    {
        null => PriceQuantity.Unknown(new FieldRef(facts.Area, nameof(WorkArea.Access))),
        { Kind: AccessKind.Ground } => null,
        { Kind: null } access => PriceQuantity.Unknown(new FieldRef(access, nameof(Model.Access.Kind))),
        { Kind: { } kind, Protection: var protection } access => PriceQuantity.Of(1).With("access", Spoken.Of(kind)).With("protection", Spoken.Of(protection))
            .By(protection.IsEmpty ? "open" : protection.All(one => one == FallProtection.None) ? "bare" : "planned")
            with
        { Missing = protection.IsEmpty ? [new FieldRef(access, nameof(Model.Access.Protection))] : [] },
    };

    // A set for each person who wears one; nobody guesses how many people an unnamed crew has.
    private static PriceQuantity? SuppliedAir(PriceInputs inputs, JobFacts job)
    {
        var requirement = inputs.Network.Requirements.Single(one => one.Spec.Id == inputs.Spec.Id);
        var asked = job.People.Where(person => requirement.ReasonNotApplicable(person) is null).ToList();
        var open = asked.Where(person => person.Person.Respirator?.Type is null).Select(Open).ToList();
        var wearing = asked.Where(person => person.Person.Respirator?.Type is RespiratorType.SuppliedAir or RespiratorType.SelfContained).ToList();
        // What does not protect enough has to become something better, and that is not known yet.
        var lacking = asked.Except(wearing).Count(person => requirement.Assess(person).Verdict?.Outcome == Outcome.NotMet);
        if (wearing.Count == 0)
        {
            return open.Count + lacking == 0 ? null : PriceQuantity.Unknown(open) with { Way = lacking > 0 ? "none" : null, Words = PriceQuantity.Of(0).With("lacking", lacking).Words };
        }

        return PriceQuantity.Of(wearing.Count).By(lacking > 0 ? "more" : "worn").With("people", asked.Count).With("lacking", lacking).WithOpen(open) with { AtLeast = lacking + open.Count > 0 };

        FieldRef Open(PersonFacts person) => !job.Plan.People.Contains(person.Person) ? new FieldRef(job.Plan, nameof(Plan.People))
            : person.Person.Respirator is { } set ? new FieldRef(set, nameof(Respirator.Type)) : new FieldRef(person.Person, nameof(Person.Respirator));
    }
}
