using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Height;

/// <summary>
/// height.power-lines-clear: whatever is raised, carried or sprayed from stays far enough from each line, farther the higher its
/// voltage, or the utility has made the line dead or sleeved it. Indoors it is asked only where the plan names lines.
/// </summary>
public sealed class PowerLinesClear(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _clear = spec.Limits["clear"];
    private readonly Limit _upTo = spec.Limits["up-to"];
    private readonly Limit _perKilovolt = spec.Limits["more-per-kilovolt"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.LivePower;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.Area switch
    {
        { PowerLines.Lines.IsEmpty: true } => "no-lines",
        { PowerLines: null, Enclosure: Enclosure.Interior } => "indoors",
        _ => null,
    };

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.PowerLines is { } near
        ? Verdict.Worst(near.Lines.Select((line, i) => Clear(line).With("line", Spoken.NameOr(line.Name, "line", i + 1))))
        : Verdict.Missing(bearer.Area, nameof(WorkArea.PowerLines));

    private Verdict Clear(PowerLine line)
    {
        if (line.DeadOrSleeved == true)
        {
            return Verdict.Met().On(line, nameof(PowerLine.DeadOrSleeved));
        }

        if (line.Distance is not { } distance)
        {
            return Verdict.Missing(line, nameof(PowerLine.Distance));
        }

        var least = Hold(distance, _clear);
        var far = line.Voltage is { } voltage ? Hold(distance, FarEnough(voltage)).On(line, nameof(PowerLine.Voltage), voltage) : least;
        if (far.Outcome == Outcome.NotMet)
        {
            // Too near a live line; a sleeve that nobody has spoken of may still be there.
            return line.DeadOrSleeved is null
                ? Verdict.Missing(line, nameof(PowerLine.DeadOrSleeved))
                : far.On(line, nameof(PowerLine.Distance), distance);
        }

        return line.Voltage is null ? Verdict.Missing(line, nameof(PowerLine.Voltage)) : far.On(line, nameof(PowerLine.Distance), distance);
    }

    private Limit FarEnough(ElectricPotential voltage)
    {
        var above = voltage - _upTo.As<ElectricPotential>();
        return above.Kilovolts > 0
            ? _perKilovolt.Amounting(_clear.As<Length>() + (above.Kilovolts * _perKilovolt.As<Length>())) with { Name = _clear.Name }
            : _clear;
    }
}
