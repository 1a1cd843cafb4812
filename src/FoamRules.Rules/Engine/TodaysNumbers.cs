using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Engine;

/// <summary>
/// The numbers that a crew works by: seconds a shot, passes and waits, and the material to bring. A number that cannot be
/// worked out from what is given is left out; the findings say what is missing. After the work there are none.
/// </summary>
internal sealed class TodaysNumbers(NumberRules rules, JobFacts job, Wording wording)
{
    /// <summary>All numbers: those of the work in the plan's order, then those of the products.</summary>
    public ImmutableArray<Number> All() => job.AsBuilt ? [] : [.. job.Work.SelectMany(OfWork), .. job.Products.SelectMany(OfProduct)];

    private IReadOnlyList<Number> OfWork(WorkFacts work) => Guarded(work, () => work switch
    {
        FillFacts fill => new FillToday(rules, fill, wording).All(),
        SprayFacts spray => new SprayToday(spray, wording).All(),
        _ => [],
    });

    private IReadOnlyList<Number> OfProduct(ProductFacts product) => Guarded(product, () => new MaterialToday(rules, product, wording).All());

    // A number that fails must not take the report with it, and must not vanish either.
    private List<Number> Guarded(Bearer bearer, Func<IEnumerable<Number>> work)
    {
        try
        {
            return [.. work()];
        }
#pragma warning disable CA1031 // Whatever fails in one number is said in its place.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            return [new Number { Subject = bearer.Subject, Name = wording.Text("number-failed"), Note = $"{fault.GetType().Name}: {fault.Message}" }];
        }
    }
}
