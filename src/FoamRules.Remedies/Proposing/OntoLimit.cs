using FoamRules.Exchange.Editing;
using FoamRules.Model;
using UnitsNet;
using Timestamp = Google.Protobuf.WellKnownTypes.Timestamp;

namespace FoamRules.Remedies.Proposing;

/// <summary>
/// A chosen number or time that is held against a limit moves onto the limit, to the next figure on the safe side that people use.
/// Where the value judged is not the field itself, the field moves by as much as the value is off, or in proportion.
/// </summary>
internal sealed class OntoLimit : IProposer
{
    // Rounding in a calculation can leave a field a step short.
    private const int Tries = 4;

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        var finding = situation.Finding;
        return finding is { Limit.Value.Quantity: { } limit, Value.Quantity: { } value } && limit.QuantityInfo.Name == value.QuantityInfo.Name
            ? situation.Choices.SelectMany(spot => spot.Value is Timestamp at ? LaterOrEarlier(situation, spot, at, value, limit) : Moved(situation, spot, value, limit))
            : [];
    }

    private static IEnumerable<Proposal> Moved(Situation situation, PlanSpot spot, IQuantity value, IQuantity limit)
    {
        if (spot is not { Number: { } now, UnitName: { } unit })
        {
            yield break;
        }

        var targets = new List<double>();
        if (spot.NumberOf(limit) is { } wanted && spot.NumberOf(value) is { } found)
        {
            targets.Add(now + wanted - found);
        }

        if (Quantities.InBase(value) is not 0 and var off)
        {
            targets.Add(now * Quantities.InBase(limit) / off);
        }

        foreach (var target in targets.Distinct().Where(target => target >= 0 && double.IsFinite(target)))
        {
            foreach (var step in situation.Figures.Steps(unit, spot.NumberOf))
            {
                var (first, on) = target > now ? (Figures.Up(target, step), step) : (Figures.Down(target, step), -step);
                for (var i = 0; i < Tries && first + (i * on) >= 0; i++)
                {
                    yield return new Proposal(spot.Path, spot.InPlanUnit(Math.Round(first + (i * on), 9)));
                }
            }
        }
    }

    private static IEnumerable<Proposal> LaterOrEarlier(Situation situation, PlanSpot spot, Timestamp at, IQuantity value, IQuantity limit)
    {
        if (value is not Duration found || limit is not Duration wanted)
        {
            yield break;
        }

        var (target, step) = (at.ToDateTimeOffset() + (wanted - found).ToTimeSpan(), situation.Figures.ClockStep);
        var over = target.UtcTicks % step.Ticks;
        var rounded = over == 0 ? target : wanted > found ? target.AddTicks(step.Ticks - over) : target.AddTicks(-over);
        yield return new Proposal(spot.Path, Timestamp.FromDateTimeOffset(rounded));
    }
}
