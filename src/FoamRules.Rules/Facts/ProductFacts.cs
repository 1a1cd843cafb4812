using FoamRules.Model;
using FoamRules.Rules.Hazards;

namespace FoamRules.Rules.Facts;

/// <summary>A product, with the work that uses it.</summary>
public sealed class ProductFacts : Bearer
{
    private readonly List<WorkFacts> _work = [];

    internal ProductFacts(JobFacts job, Product product)
        : base(new Subject(SubjectKind.Product, product.Id))
    {
        Job = job;
        Product = product;
    }

    /// <inheritdoc/>
    public override JobFacts Job { get; }

    /// <summary>The product as its data sheet describes it.</summary>
    public Product Product { get; }

    /// <summary>The work that uses it.</summary>
    public IReadOnlyList<WorkFacts> Work => _work;

    internal void Attach(WorkFacts work) => _work.Add(work);

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<ProductFacts>(kind, this);
}
