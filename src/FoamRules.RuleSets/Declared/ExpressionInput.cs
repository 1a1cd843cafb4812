using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>What a requirement can be declared for: what it is judged on.</summary>
public enum DeclaredBearer
{
    /// <summary>The job as a whole.</summary>
    Job,

    /// <summary>A place in which foam is worked.</summary>
    Area,

    /// <summary>A product.</summary>
    Product,

    /// <summary>A person on the crew.</summary>
    Person,

    /// <summary>A piece of work, sprayed or poured.</summary>
    Work,

    /// <summary>A piece of sprayed work.</summary>
    Spray,

    /// <summary>A piece of poured work.</summary>
    Fill,
}

/// <summary>What an expression looks at: the plan, and the parts of it that belong to the bearer.</summary>
public sealed class ExpressionInput
{
    /// <summary>The plan.</summary>
    public required Plan Plan { get; init; }

    /// <summary>The site; an empty one where the plan gives none.</summary>
    public required Site Site { get; init; }

    /// <summary>The gear; an empty one where the plan gives none.</summary>
    public required Gear Gear { get; init; }

    /// <summary>The area of an area or of work.</summary>
    public WorkArea? Area { get; init; }

    /// <summary>The data sheet of a product, or of the product that work uses.</summary>
    public Product? Product { get; init; }

    /// <summary>The person.</summary>
    public Person? Person { get; init; }

    /// <summary>The work item.</summary>
    public WorkItem? Work { get; init; }

    /// <summary>Its spray application.</summary>
    public SprayApplication? Spray { get; init; }

    /// <summary>Its cavity fill.</summary>
    public CavityFill? Fill { get; init; }

    /// <summary>The properties that a bearer's expressions may name; the names are these in small letters.</summary>
    internal static IReadOnlyList<string> VariablesOf(DeclaredBearer bearer) =>
    [
        nameof(Plan), nameof(Site), nameof(Gear), .. bearer switch
        {
            DeclaredBearer.Area => [nameof(Area)],
            DeclaredBearer.Product => [nameof(Product)],
            DeclaredBearer.Person => [nameof(Person)],
            DeclaredBearer.Work => [nameof(Work), nameof(Area), nameof(Product)],
            DeclaredBearer.Spray => [nameof(Work), nameof(Spray), nameof(Area), nameof(Product)],
            DeclaredBearer.Fill => [nameof(Work), nameof(Fill), nameof(Area), nameof(Product)],
            _ => Array.Empty<string>(),
        },
    ];
}
