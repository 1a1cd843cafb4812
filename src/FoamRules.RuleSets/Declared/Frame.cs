using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>One evaluation: what it looks at, which fields it has read and which of them the plan does not give.</summary>
internal sealed class Frame(ExpressionInput input)
{
    /// <summary>The most entries of lists that one evaluation looks at: no expression can run away.</summary>
    public const int MaxSteps = 100_000;

    private readonly List<FieldRead> _reads = new(4);

    // Made when they are needed: where everything is given, they never are.
    private List<FieldRead>? _missing;
    private List<(PlanNode Stand, PlanNode Parent, Field Field)>? _absent;
    private int _steps;

    /// <summary>What the expression looks at.</summary>
    public ExpressionInput Input => input;

    /// <summary>The fields read so far, in order.</summary>
    public IReadOnlyList<FieldRead> Reads => _reads;

    /// <summary>The missing fields that the value rests on.</summary>
    public IReadOnlyList<FieldRead> Missing => _missing ?? [];

    /// <summary>The first failure; null where there is none.</summary>
    public string? Failure { get; private set; }

    /// <summary>How many fields are missing so far, to be given back to <see cref="Settle"/>.</summary>
    public int Mark() => _missing?.Count ?? 0;

    /// <summary>Forgets the fields that were missing since a mark where the value is known without them.</summary>
    public Value<bool> Settle(int mark, Value<bool> value)
    {
        if (value.State == State.Known && _missing is not null)
        {
            _missing.RemoveRange(mark, _missing.Count - mark);
        }

        return value;
    }

    /// <summary>Counts one step.</summary>
    public void Step()
    {
        if (++_steps > MaxSteps)
        {
            throw new InvalidOperationException($"the expression looks at more than {MaxSteps} entries of lists");
        }
    }

    /// <summary>A value that cannot be worked out.</summary>
    public Value<T> Fail<T>(string why)
    {
        Failure ??= why;
        return new Value<T>(default!, State.Failed);
    }

    internal void Read(PlanNode node, Field field, bool given = true) => _reads.Add(new FieldRead(node, field, given));

    internal Value<T> Lacks<T>(PlanNode node, Field field)
    {
        var read = new FieldRead(node, field, false);
        _reads.Add(read);
        (_missing ??= []).Add(read);
        return new Value<T>(default!, State.Missing);
    }

    /// <summary>An empty part stands for one that the plan does not give, so that the fields in it have their paths.</summary>
    internal T StandIn<T>(T stand, PlanNode parent, Field field)
        where T : PlanNode
    {
        (_absent ??= []).Add((stand, parent, field));
        return stand;
    }

    /// <summary>The field that an empty part stands for; null where the plan gives the part.</summary>
    internal (PlanNode Parent, Field Field)? StandsFor(PlanNode node)
    {
        foreach (var (stand, parent, field) in _absent ?? [])
        {
            if (ReferenceEquals(stand, node))
            {
                return (parent, field);
            }
        }

        return null;
    }
}
