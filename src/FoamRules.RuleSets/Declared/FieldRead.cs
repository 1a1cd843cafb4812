using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>A field of the plan that an expression has looked at.</summary>
public readonly struct FieldRead
{
    private readonly Field _field;

    internal FieldRead(PlanNode node, Field field, bool given)
    {
        Node = node;
        _field = field;
        Given = given;
    }

    /// <summary>The part of the plan.</summary>
    public PlanNode Node { get; }

    /// <summary>The property.</summary>
    public string Property => _field.Property.Name;

    /// <summary>The field's name in the contract.</summary>
    public string Name => _field.Name;

    /// <summary>True where the plan gives it.</summary>
    public bool Given { get; }

    /// <summary>Its value; null where it is not a single one.</summary>
    public Measure? Value => _field.Show(Node);
}
