using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Hazards;

namespace FoamRules.Rules.Facts;

/// <summary>The job as a whole, with a way to each of its parts.</summary>
public sealed class JobFacts : Bearer
{
    private readonly Dictionary<string, ProductFacts> _products;
    private readonly Dictionary<string, AreaFacts> _areas;

    /// <summary>The facts of a plan.</summary>
    /// <param name="plan">The plan as read: its references hold.</param>
    public JobFacts(Plan plan)
        : base(new Subject(SubjectKind.Plan, ""))
    {
        Plan = plan;
        // In the order of their ids, whatever the plan's order: a judge that takes the first of several equals takes the same one.
        _products = plan.Products.ToDictionary(product => product.Id, product => new ProductFacts(this, product));
        _areas = plan.Areas.ToDictionary(area => area.Id, area => new AreaFacts(this, area));
        Work = [.. plan.Work.OrderBy(item => item.Id, StringComparer.Ordinal).Select(item => WorkFacts.Of(this, item))];
        foreach (var work in Work)
        {
            work.Product.Attach(work);
            work.Area.Attach(work);
        }

        Products = [.. plan.Products.OrderBy(product => product.Id, StringComparer.Ordinal).Select(product => _products[product.Id])];
        Areas = [.. plan.Areas.OrderBy(area => area.Id, StringComparer.Ordinal).Select(area => _areas[area.Id])];
        People = [.. plan.People.OrderBy(person => person.Id, StringComparer.Ordinal).Select(person => new PersonFacts(this, person))];
        var worked = Areas.Where(area => area.Work.Count > 0).ToList();
        if (worked.Any(area => !People.Any(person => person.WorksIn(area))))
        {
            // Nobody is named for some foam work: whoever does it is judged as a person of whom nothing is known.
            var crew = new Person { Id = "crew", Where = new PathStep(null, "people", "crew") };
            People = People.Add(new PersonFacts(this, crew));
        }

        foreach (var area in Areas)
        {
            area.People = [.. People.Where(person => person.WorksIn(area))];
        }

        All = [this, .. Areas, .. Products, .. People, .. Work];
    }

    /// <summary>The plan.</summary>
    public Plan Plan { get; }

    /// <inheritdoc/>
    public override JobFacts Job => this;

    /// <summary>The site; an empty one where the plan gives none.</summary>
    public Site Site => Plan.Site ?? NoSite;

    /// <summary>The gear; an empty one where the plan gives none.</summary>
    public Gear Gear => Plan.Gear ?? NoGear;

    /// <summary>The products.</summary>
    public ImmutableArray<ProductFacts> Products { get; }

    /// <summary>The areas.</summary>
    public ImmutableArray<AreaFacts> Areas { get; }

    /// <summary>The people, and one unknown crew where an area has foam work and nobody named.</summary>
    public ImmutableArray<PersonFacts> People { get; }

    /// <summary>The work.</summary>
    public ImmutableArray<WorkFacts> Work { get; }

    /// <summary>Everything that requirements are judged on.</summary>
    public IReadOnlyList<Bearer> All { get; }

    /// <summary>A product by its id.</summary>
    public ProductFacts ProductOf(string id) => _products[id];

    /// <summary>An area by its id.</summary>
    public AreaFacts AreaOf(string id) => _areas[id];

    private static Site NoSite { get; } = new() { Where = new PathStep(null, "site", null) };

    private static Gear NoGear { get; } = new() { Where = new PathStep(null, "gear", null) };

    internal override IHazard<Bearer> HazardOf(HazardKind kind) => new HazardFact<JobFacts>(kind, this);
}
