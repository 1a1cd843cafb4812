using FoamRules.Model;
using FoamRules.Rules.Hazards;

namespace FoamRules.Rules.Facts;

/// <summary>A person on the crew, with the areas they work in.</summary>
public sealed class PersonFacts : Bearer
{
    internal PersonFacts(JobFacts job, Person person)
        : base(new Subject(SubjectKind.Person, person.Id))
    {
        Job = job;
        Person = person;
    }

    /// <inheritdoc/>
    public override JobFacts Job { get; }

    /// <summary>The person.</summary>
    public Person Person { get; }

    /// <summary>The areas that they work in, foam being worked there.</summary>
    public IEnumerable<AreaFacts> Areas => Job.Areas.Where(area => area.Work.Count > 0 && WorksIn(area));

    /// <summary>True for an area that the person is named for; a person named for no area may be in any.</summary>
    public bool WorksIn(AreaFacts area) => Person.Areas.IsEmpty || Person.Areas.Contains(area.Area.Id);

    /// <summary>True where the person does one of these tasks; a person without tasks may do any.</summary>
    public bool MayDo(params ReadOnlySpan<CrewTask> tasks)
    {
        if (Person.Tasks.IsEmpty)
        {
            return true;
        }

        foreach (var task in tasks)
        {
            if (Person.Tasks.Contains(task))
            {
                return true;
            }
        }

        return false;
    }

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<PersonFacts>(kind, this);
}
