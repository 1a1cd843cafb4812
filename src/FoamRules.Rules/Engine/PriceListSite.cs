using System.Globalization;
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
        PriceQuantityKind.For<AreaFacts>("access", Access),
        PriceQuantityKind.For<JobFacts>("supplied-air", SuppliedAir),
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
        { Kind: { } kind } access => PriceQuantity.Of(1).With("access", Answer.Word(kind).Replace('-', ' '))
            .With("protection", access.Protection.IsEmpty ? "?" : string.Join(", ", access.Protection.Select(one => Answer.Word(one).Replace('-', ' '))))
            .WithOpen(access.Protection.IsEmpty ? [new FieldRef(access, nameof(Model.Access.Protection))] : []) with { AtLeast = false },
    };

    // A set for each person who wears one; nobody guesses how many people an unnamed crew has.
    private static PriceQuantity? SuppliedAir(PriceInputs inputs, JobFacts job)
    {
        var requirement = inputs.Network.Requirements.Single(one => one.Spec.Id == inputs.Spec.Id);
        var asked = job.People.Where(person => requirement.ReasonNotApplicable(person) is null).ToList();
        var open = asked.Where(person => person.Person.Respirator?.Type is null).Select(Open).ToList();
        var wearing = asked.Count(person => person.Person.Respirator?.Type is RespiratorType.SuppliedAir or RespiratorType.SelfContained);
        return wearing == 0
            ? open.Count == 0 ? null : PriceQuantity.Unknown(open)
            : PriceQuantity.Of(wearing).With("people", string.Create(CultureInfo.InvariantCulture, $"{asked.Count}")).WithOpen(open);

        FieldRef Open(PersonFacts person) => !job.Plan.People.Contains(person.Person) ? new FieldRef(job.Plan, nameof(Plan.People))
            : person.Person.Respirator is { } set ? new FieldRef(set, nameof(Respirator.Type)) : new FieldRef(person.Person, nameof(Person.Respirator));
    }
}
