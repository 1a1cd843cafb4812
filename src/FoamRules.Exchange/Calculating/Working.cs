using FoamRules.Model;

namespace FoamRules.Exchange.Calculating;

/// <summary>A calculation under way: gathers the worked steps and ends at the first refusal.</summary>
internal sealed class Working
{
    private readonly List<WorkedStep> _steps = [];

    /// <summary>The steps so far.</summary>
    public IReadOnlyList<WorkedStep> Steps => _steps;

    /// <summary>The value of a calculation, its steps kept.</summary>
    /// <exception cref="RefusedException">The calculation was refused.</exception>
    public T Take<T>(Calculated<T> calculated)
    {
        var value = ValueOf(calculated);
        _steps.AddRange(calculated.Steps);
        return value;
    }

    /// <summary>The value of a calculation without its steps.</summary>
    /// <exception cref="RefusedException">The calculation was refused.</exception>
    public static T ValueOf<T>(Calculated<T> calculated) =>
        calculated.Refusal is { } refusal ? throw new RefusedException(refusal) : calculated.Value;

    /// <summary>Adds a step of the mapping itself.</summary>
    public void Add(WorkedStep step) => _steps.Add(step);
}

/// <summary>A calculation was refused. It never leaves <see cref="Calculator"/>.</summary>
internal sealed class RefusedException(Refusal refusal) : Exception(refusal.Why)
{
    /// <summary>The refusal.</summary>
    public Refusal Refusal { get; } = refusal;
}

/// <summary>Fields that are possible each for itself do not go together. It never leaves <see cref="Calculator"/>.</summary>
internal sealed class UnusableException(params IReadOnlyList<Violation> violations) : Exception(violations[0].ToString())
{
    /// <summary>What does not go together.</summary>
    public IReadOnlyList<Violation> Violations { get; } = violations;
}
