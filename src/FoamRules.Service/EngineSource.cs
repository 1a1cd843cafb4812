using FoamRules.Model;
using FoamRules.Rules.Engine;

namespace FoamRules.Service;

/// <summary>
/// Holds the engine in use. A request reads <see cref="Current"/> once and finishes on what it got; a swap is one write, so
/// nobody sees half a change.
/// </summary>
/// <param name="engine">The engine to begin with.</param>
public sealed class EngineSource(CheckEngine engine)
{
    private volatile EngineState _state = new(engine, null);

    /// <summary>The engine in use.</summary>
    public CheckEngine Current => _state.Engine;

    /// <summary>The engine in use, and what was refused since it was taken into use.</summary>
    public EngineState State => _state;

    /// <summary>Takes another engine into use.</summary>
    /// <param name="engine">The engine, compiled.</param>
    public void Use(CheckEngine engine) => _state = new EngineState(engine, null);

    /// <summary>Keeps the engine in use and remembers what was refused; null: nothing any more.</summary>
    public void Refuse(Refused? refused) => _state = _state with { Refused = refused };
}

/// <summary>The engine in use, and what was refused since.</summary>
/// <param name="Engine">The engine.</param>
/// <param name="Refused">A newer state of the folder that was refused; null: none.</param>
public sealed record EngineState(CheckEngine Engine, Refused? Refused);

/// <summary>Rule sets that were refused.</summary>
/// <param name="At">When.</param>
/// <param name="Violations">What is wrong with them; at least one.</param>
public sealed record Refused(DateTimeOffset At, IReadOnlyList<Violation> Violations);
