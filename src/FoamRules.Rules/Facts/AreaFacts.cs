using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Hazards;

namespace FoamRules.Rules.Facts;

/// <summary>A place in which foam is worked, with the work and the people in it.</summary>
public sealed class AreaFacts : Bearer
{
    private readonly List<WorkFacts> _work = [];

    internal AreaFacts(JobFacts job, WorkArea area)
        : base(new Subject(SubjectKind.Area, area.Id))
    {
        Job = job;
        Area = area;
    }

    /// <inheritdoc/>
    public override JobFacts Job { get; }

    /// <summary>The area.</summary>
    public WorkArea Area { get; }

    /// <summary>The work done in it.</summary>
    public IReadOnlyList<WorkFacts> Work => _work;

    /// <summary>The people who work in it.</summary>
    public ImmutableArray<PersonFacts> People { get; internal set; } = [];

    /// <summary>True where foam is sprayed in it.</summary>
    public bool HasSpraying => _work.Any(work => work is SprayFacts);

    /// <summary>The readings of one kind, in the order of the plan.</summary>
    public IEnumerable<Reading> Readings(ReadingKind kind) => Area.Readings.Where(reading => reading.Kind == kind);

    internal void Attach(WorkFacts work) => _work.Add(work);

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<AreaFacts>(kind, this);
}
