using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Hazards;
using UnitsNet;

namespace FoamRules.Rules.Facts;

/// <summary>A piece of foam work, with its product and its area.</summary>
public abstract class WorkFacts : Bearer
{
    private protected WorkFacts(JobFacts job, WorkItem item)
        : base(new Subject(SubjectKind.Work, item.Id))
    {
        Job = job;
        Item = item;
        Product = job.ProductOf(item.Product!);
        Area = job.AreaOf(item.Area!);
    }

    /// <inheritdoc/>
    public override JobFacts Job { get; }

    /// <summary>The work item.</summary>
    public WorkItem Item { get; }

    /// <summary>The product that it uses.</summary>
    public ProductFacts Product { get; }

    /// <summary>The data sheet of that product.</summary>
    public Product Sheet => Product.Product;

    /// <summary>The area in which it is done.</summary>
    public AreaFacts Area { get; }

    /// <summary>What the foam needs around it against fire; an empty one where the plan gives none.</summary>
    public FireSituation Fire => Item.Fire ?? new FireSituation { Where = new PathStep(Item.Where, "fire", null) };

    internal static WorkFacts Of(JobFacts job, WorkItem item) =>
        item.Spray is { } spray ? new SprayFacts(job, item, spray) : new FillFacts(job, item, item.CavityFill!);
}

/// <summary>Foam sprayed on an open face in passes.</summary>
public sealed class SprayFacts : WorkFacts
{
    internal SprayFacts(JobFacts job, WorkItem item, SprayApplication spray)
        : base(job, item) => Spray = spray;

    /// <summary>The spray application.</summary>
    public SprayApplication Spray { get; }

    /// <summary>The passes, each with the thickness that counts at this stage: as built at close-out, as planned before.</summary>
    public IEnumerable<(Pass Pass, Length? Thickness, string Property)> Passes => Spray.Passes.Select(pass => AsBuilt
        ? (pass, pass.BuiltThickness, nameof(Pass.BuiltThickness))
        : (pass, pass.Thickness, nameof(Pass.Thickness)));

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<SprayFacts>(kind, this);
}

/// <summary>Foam poured into closed cavities.</summary>
public sealed class FillFacts : WorkFacts
{
    internal FillFacts(JobFacts job, WorkItem item, CavityFill fill)
        : base(job, item) => Fill = fill;

    /// <summary>The cavity fill.</summary>
    public CavityFill Fill { get; }

    /// <summary>The compartments as given; none where the cavity is one space from end to end, or where nobody listed them.</summary>
    public ImmutableArray<Compartment> Compartments => Fill.Compartments;

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<FillFacts>(kind, this);
}
