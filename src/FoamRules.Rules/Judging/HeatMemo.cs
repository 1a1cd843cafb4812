using System.Collections.Concurrent;
using FoamRules.Calculations;
using FoamRules.Model;

namespace FoamRules.Rules.Judging;

/// <summary>
/// Heat that was worked out before is not worked out again: the same passes stand in many items of a plan, several requirements ask for
/// them, and a plan is checked again and again. The calculations are pure, so a remembered result is the result.
/// </summary>
internal static class HeatMemo
{
    private static readonly Remembered<PassHeatCase, Calculated<PassHeatResult>> Passes = new(plan => PassHeat.Simulate(plan));
    private static readonly Remembered<PourHeatCase, Calculated<PourHeatResult>> Pours = new(PourHeat.Cool);

    /// <summary>The heat in passes.</summary>
    public static Calculated<PassHeatResult> Of(PassHeatCase plan) => Passes.Of(plan);

    /// <summary>The heat in a pour.</summary>
    public static Calculated<PourHeatResult> Of(PourHeatCase pour) => Pours.Of(pour);

    private sealed class Remembered<TQuestion, TAnswer>(Func<TQuestion, TAnswer> work)
        where TQuestion : notnull
    {
        // A result with its steps is a few kilobytes: bounded, so that a service that runs for months does not grow.
        private const int Most = 1024;
        private readonly ConcurrentDictionary<TQuestion, TAnswer> _known = new();

        public TAnswer Of(TQuestion question)
        {
            if (_known.TryGetValue(question, out var known))
            {
                return known;
            }

            if (_known.Count >= Most)
            {
                _known.Clear();
            }

            return _known[question] = work(question);
        }
    }
}
