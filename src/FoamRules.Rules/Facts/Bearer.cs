using FoamRules.Model;
using FoamRules.Rules.Hazards;

namespace FoamRules.Rules.Facts;

/// <summary>
/// A fact that hazards fall on and requirements are judged on: the job, an area, a piece of work, a product, a person. It is
/// compared by identity, so that inserting it never hashes the whole plan; its subject is its id.
/// </summary>
public abstract class Bearer
{
    private readonly Dictionary<(object Asker, Type Answer), object> _workedOut = [];

    private protected Bearer(Subject subject) => Subject = subject;

    /// <summary>Its kind and id.</summary>
    public Subject Subject { get; }

    /// <summary>The job that it belongs to.</summary>
    public abstract JobFacts Job { get; }

    /// <summary>The moment at which it is judged.</summary>
    public Stage Stage => Job.Plan.Stage;

    /// <summary>True at close-out, when the foam is judged as built.</summary>
    public bool AsBuilt => Stage == Stage.CloseOut;

    /// <summary>What one asker works out for it. Requirements, numbers, clock and price ask for the same, so it is worked out once.</summary>
    /// <typeparam name="T">The answer's type.</typeparam>
    /// <param name="asker">What the answer depends on besides the facts, such as the requirement itself.</param>
    /// <param name="work">Works it out.</param>
    internal T Once<T>(object asker, Func<T> work)
        where T : notnull
    {
        if (!_workedOut.TryGetValue((asker, typeof(T)), out var known))
        {
            known = work();
            _workedOut.Add((asker, typeof(T)), known);
        }

        return (T)known;
    }

    /// <summary>
    /// A hazard that falls on it, typed by its own type: a hazard rule for all work then also makes the requirements of spray
    /// and of cavity fill be asked.
    /// </summary>
    internal abstract IHazard<Bearer> HazardOf(HazardKind kind);
}
