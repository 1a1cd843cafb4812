using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>
/// Calculations 4.3 and 4.4 for sprayed passes: each pass starts at mix temperature plus adiabatic rise, on the layers and
/// earlier passes below it with the heat they still hold; then one-dimensional conduction ρ c ∂T/∂t = ∂/∂x(k ∂T/∂x), films
/// at the faces, constant properties. Judged by the time hot, not by the peak. No such result clears a thickness or a wait.
/// Range: 1 to 50 passes, −60 to 400 °C. Source: Fourier's equation, Crank-Nicolson (standard, from memory, certain); checked
/// against the exact series of <see cref="HeatSeries"/>.
/// </summary>
public static class PassHeat
{
    private const string Source = "layered one-dimensional conduction, Crank-Nicolson; checked against exact series";
    private const int MostPasses = 50, ImplicitSteps = 4, StepsBeforeDoubling = 8;

    /// <summary>Follows the heat through all passes.</summary>
    /// <param name="plan">Passes, layers, air and what they are judged by.</param>
    /// <param name="grid">How finely to cut; <see cref="HeatGrid.Usual"/> when null.</param>
    public static Calculated<PassHeatResult> Simulate(PassHeatCase plan, HeatGrid? grid = null)
    {
        grid ??= HeatGrid.Usual;
        if (Bad(plan, grid) is { } refusal)
            return Calculated<PassHeatResult>.Refuse(refusal);

        var result = new Run(plan, grid).ToEnd();
        var last = plan.Passes[^1];
        List<WorkedStep> steps =
        [
            .. plan.Passes.Select((pass, i) => Of(
                $"start of pass {i + 1}", "T = T_mix + ΔT", Temperature.FromDegreesCelsius(pass.Mix.DegreesCelsius + pass.AdiabaticRise.Kelvins), "heat balance, nothing lost",
                In("T_mix", "mix temperature", pass.Mix), In("ΔT", "adiabatic rise", pass.AdiabaticRise), In("d", "thickness", pass.Thickness), In("t", "put on at", pass.At))),
            Of("longest time hot", "ρ c ∂T/∂t = ∂/∂x(k ∂T/∂x); unbroken time above T_hot", result.LongestHot, Source,
                In("T_hot", "threshold", plan.HotAbove), In("k", "conductivity of the last pass", last.Properties.Conductivity), In("ρ", "its density", last.Properties.Density), In("c", "its specific heat", last.Properties.SpecificHeat),
                In("T_air", "air", plan.Front.Air), In("h", "surface coefficient", plan.Front.Film)),
            Of("peak, shown and not judged", "highest temperature of any point", result.Peak, Source),
        ];
        if (result.Passes[^1] is { CooledAfter: { } cooled, SurfaceWhenCooled: { } surface })
        {
            steps.Add(Of("cooling of the last pass", "T_hottest = T_air + f (T_start − T_air)", cooled, Source, In("f", "share of the rise left", plan.CooledTo)));
            steps.Add(Of("surface temperature then", "face of the foam", surface, Source));
        }

        return Calculated<PassHeatResult>.From(result, [.. steps]);
    }

    /// <summary>The same with a low, a likely and a high rise in every pass.</summary>
    /// <param name="plan">The plan; the rise of its passes is replaced.</param>
    /// <param name="rise">The interval of the rise.</param>
    /// <param name="grid">How finely to cut.</param>
    public static Calculated<PassHeatInterval> Simulate(PassHeatCase plan, RiseInterval rise, HeatGrid? grid = null)
    {
        Calculated<PassHeatResult> With(TemperatureDelta delta) =>
            Simulate(plan with { Passes = plan.Passes.IsDefault ? plan.Passes : [.. plan.Passes.Select(pass => pass with { AdiabaticRise = delta })] }, grid);
        var (low, likely, high) = (With(rise.Low), With(rise.Likely), With(rise.High));
        return (low.Refusal ?? likely.Refusal ?? high.Refusal) is { } refusal
            ? Calculated<PassHeatInterval>.Refuse(refusal)
            : Calculated<PassHeatInterval>.From(new PassHeatInterval(low.Value, likely.Value, high.Value), [.. low.Steps, .. likely.Steps, .. high.Steps]);
    }

    private static Refusal? Bad(PassHeatCase plan, HeatGrid grid)
    {
        if (plan.Passes.IsDefaultOrEmpty || plan.Passes.Length > MostPasses)
            return new Refusal("passes", Measure.OfCount(plan.Passes.IsDefault ? 0 : plan.Passes.Length), $"1 to {MostPasses}", "there is nothing to follow, or more than a wall takes");
        var bad = plan.Front.Bad() ?? plan.Back?.Bad()
            ?? HeatRange.Bad("threshold", plan.HotAbove)
            ?? (plan.HotAbove > plan.Front.Air ? null : new Refusal("threshold", Measure.Of(plan.HotAbove), "above the air temperature", "foam never gets colder than the air"))
            ?? Gate.Inside("share of the rise left", plan.CooledTo, plan.CooledTo.DecimalFractions, 0, 1, "above 0 and below 100 %", "cooling has no end and starts at all of it")
            ?? Gate.Inside("horizon", plan.Horizon, plan.Horizon.Days, 0, 14 + 1e-9, "above 0 and at most 14 days", "foam is cold by then")
            ?? Gate.Count("cells in a pass", grid.CellsPerPass, 4, "4 to 2000", "too coarse")
            ?? Gate.Count("cells in a pass", 2000 - grid.CellsPerPass, 0, "4 to 2000", "needlessly fine")
            ?? Gate.Count("cells in a layer", grid.CellsPerLayer, 2, "2 to 2000", "too coarse")
            ?? Gate.Count("cells in a layer", 2000 - grid.CellsPerLayer, 0, "2 to 2000", "needlessly fine")
            ?? Gate.AtLeast("first time step", grid.FirstStep, grid.FirstStep.Seconds, 0.001, "0.001 s or more", "time has to pass")
            ?? Gate.AtLeast("longest time step", grid.LongestStep, grid.LongestStep.Seconds, grid.FirstStep.Seconds, "the first step or more", "it grows from it");
        foreach (var layer in plan.Substrate.IsDefault ? [] : plan.Substrate)
            bad ??= BadThickness(layer.Thickness, $"thickness of {layer.Name}") ?? layer.Properties.Bad() ?? HeatRange.Bad($"temperature of {layer.Name}", layer.Start);

        var before = Duration.Zero;
        foreach (var pass in plan.Passes)
        {
            bad ??= BadThickness(pass.Thickness, "thickness of a pass") ?? pass.Properties.Bad() ?? HeatRange.Bad("mix temperature", pass.Mix)
                ?? Gate.Between("adiabatic rise", pass.AdiabaticRise, pass.AdiabaticRise.Kelvins, 0, 300, "0 to 300 K", "above it the foam burns")
                ?? Gate.Between("time of a pass", pass.At, pass.At.Days, before.Days, 60, "in order, not before the pass below it, within 60 days", "passes lie on one another")
                ?? (pass.ReleaseTime is { } tau ? Gate.Between("release time", tau, tau.Hours, 0, 1, "0 to 1 h", "foam has reacted by then") : null);
            before = pass.At;
        }

        before = Duration.Zero;
        foreach (var read in plan.ReadAfter.IsDefault ? [] : plan.ReadAfter)
        {
            bad ??= Gate.Between("time of a reading", read, read.Seconds, before.Seconds, plan.Horizon.Seconds, "in order, from 0 to the horizon", "it is read after the last pass");
            before = read;
        }

        return bad;
    }

    private static Refusal? BadThickness(Length thickness, Said name) =>
        Gate.Between(name, thickness, thickness.Meters, 0.0001, 1, "0.1 mm to 1 m", "no layer is thinner or thicker");

    /// <summary>One run; all numbers in SI and °C.</summary>
    private sealed class Run
    {
        private readonly PassHeatCase _plan;
        private readonly HeatGrid _grid;
        private readonly LayeredSlab _slab;
        private readonly int _firstFoam;
        private readonly double _air, _hot, _left, _firstStep, _longestStep;
        private readonly List<PassCooling> _passes = [];
        private readonly List<HeatReading> _readings = [];

        // For each foam cell: when it last went above the threshold (or NaN), its longest and its whole time above it.
        private double[] _since = [], _longest = [], _whole = [];
        private double[] _source = [];
        private double _time, _peak = double.NegativeInfinity, _hottest = double.NegativeInfinity, _brought, _throughput;

        public Run(PassHeatCase plan, HeatGrid grid)
        {
            (_plan, _grid) = (plan, grid);
            (_air, _hot, _left) = (plan.Front.Air.DegreesCelsius, plan.HotAbove.DegreesCelsius, plan.CooledTo.DecimalFractions);
            (_firstStep, _longestStep) = (grid.FirstStep.Seconds, grid.LongestStep.Seconds);
            _slab = new LayeredSlab(
                plan.Back?.Film.WattsPerSquareMeterKelvin ?? 0, plan.Back?.Air.DegreesCelsius ?? 0, plan.Front.Film.WattsPerSquareMeterKelvin, _air);
            foreach (var layer in plan.Substrate.IsDefault ? [] : plan.Substrate)
                Bring(grid.CellsPerLayer, layer.Thickness.Meters, layer.Properties, layer.Start.DegreesCelsius);
            _firstFoam = _slab.Count;
        }

        public PassHeatResult ToEnd()
        {
            for (var i = 0; i < _plan.Passes.Length; i++)
            {
                PutOn(_plan.Passes[i]);
                var isLast = i + 1 == _plan.Passes.Length;
                _passes.Add(Follow(i, isLast ? _time + _plan.Horizon.Seconds : _plan.Passes[i + 1].At.Seconds, isLast));
            }

            var stillHot = false;
            for (var i = 0; i < _since.Length; i++)
            {
                if (double.IsNaN(_since[i]))
                    continue;
                stillHot = true;
                Cools(i, _time);
            }

            var most = Array.IndexOf(_longest, _longest.Max());
            var error = _slab.HeatStored + _slab.HeatLost - _brought;
            return new PassHeatResult(
                Duration.FromSeconds(_longest[most]), Duration.FromSeconds(_whole.Max()), stillHot, Length.FromMeters(DepthOf(most)),
                Temperature.FromDegreesCelsius(_peak),
                Temperature.FromDegreesCelsius(_plan.Passes.Max(pass => pass.Mix.DegreesCelsius + pass.AdiabaticRise.Kelvins)),
                [.. _passes], [.. _readings], Math.Abs(error) / Math.Max(_throughput, double.Epsilon));
        }

        private void PutOn(FoamPass pass)
        {
            _time = pass.At.Seconds;
            var gradual = pass.ReleaseTime is { } tau && tau.Seconds > 0;
            var start = pass.Mix.DegreesCelsius + (gradual ? 0 : pass.AdiabaticRise.Kelvins);
            Bring(_grid.CellsPerPass, pass.Thickness.Meters, pass.Properties, start);
            _since = [.. _since, .. Enumerable.Repeat(start > _hot ? _time : double.NaN, _grid.CellsPerPass)];
            _longest = [.. _longest, .. new double[_grid.CellsPerPass]];
            _whole = [.. _whole, .. new double[_grid.CellsPerPass]];
            _hottest = Math.Max(_hottest, start);
            _peak = Math.Max(_peak, _hottest);
        }

        private void Bring(int cells, double thickness, ThermalProperties material, double temperature)
        {
            _slab.Add(cells, thickness, material, temperature);
            var heat = thickness * material.HeatCapacity * temperature;
            _brought += heat;
            // The books are closed against the heat that can move: what the layer holds above or below the air.
            _throughput += thickness * material.HeatCapacity * Math.Abs(temperature - _air);
        }

        /// <summary>Steps on until the next pass, or until everything asked for is known.</summary>
        private PassCooling Follow(int index, double until, bool isLast)
        {
            var pass = _plan.Passes[index];
            var (put, start) = (_time, pass.Mix.DegreesCelsius + pass.AdiabaticRise.Kelvins);
            var cooledBelow = _air + _left * (start - _air);
            // Foam that is still reacting may look cool before it has become hot.
            var reacting = pass.ReleaseTime is { } tau ? put + 5 * tau.Seconds : put;
            var (cooled, surface) = (double.NaN, double.NaN);
            var reads = isLast && !_plan.ReadAfter.IsDefault ? new Queue<double>(_plan.ReadAfter.Select(read => put + read.Seconds)) : new Queue<double>();
            var (step, taken) = (_firstStep, 0);

            while (true)
            {
                while (reads.TryPeek(out var due) && due <= _time)
                    _readings.Add(Read(reads.Dequeue() - put));
                if (double.IsNaN(cooled) && _time >= reacting && _hottest <= cooledBelow)
                    (cooled, surface) = (_time, _slab.FrontTemperature);
                if (_time >= until || isLast && reads.Count == 0 && !double.IsNaN(cooled) && _hottest <= _hot)
                    break;

                var next = Math.Min(until, reads.TryPeek(out var read) ? read : until);
                var (before, face) = (_hottest, _slab.FrontTemperature);
                var length = Math.Min(step, next - _time);
                Advance(length, taken < ImplicitSteps ? 1 : 0.5);
                // Land on the moment itself: sums of steps drift by a rounding, and would then step by it.
                if (next - _time < 1e-6)
                    _time = next;
                if (double.IsNaN(cooled) && _time >= reacting && _hottest <= cooledBelow && before > cooledBelow)
                {
                    var part = (before - cooledBelow) / (before - _hottest);
                    (cooled, surface) = (_time - length * (1 - part), face + part * (_slab.FrontTemperature - face));
                }

                taken++;
                if (taken % StepsBeforeDoubling == 0)
                    step = Math.Min(2 * step, _longestStep);
            }

            return new PassCooling(
                double.IsNaN(cooled) ? null : Duration.FromSeconds(cooled - put),
                double.IsNaN(surface) ? null : Temperature.FromDegreesCelsius(surface),
                isLast ? null : Read(_time - put));
        }

        private void Advance(double step, double weight)
        {
            var change = _slab.Step(step, weight, Release(step));
            var foam = Foam();
            var hottest = double.NegativeInfinity;
            for (var i = 0; i < foam.Length; i++)
            {
                var now = foam[i];
                hottest = Math.Max(hottest, now);
                var isHot = now > _hot;
                if (isHot == !double.IsNaN(_since[i]))
                    continue;
                var before = now - change[_firstFoam + i];
                var crossed = _time + step * (_hot - before) / (now - before);
                if (isHot)
                    _since[i] = crossed;
                else
                    Cools(i, crossed);
            }

            _time += step;
            _hottest = hottest;
            _peak = Math.Max(_peak, hottest);
        }

        private void Cools(int cell, double at)
        {
            var hot = at - _since[cell];
            _longest[cell] = Math.Max(_longest[cell], hot);
            _whole[cell] += hot;
            _since[cell] = double.NaN;
        }

        /// <summary>Heat that passes still reacting give off during the step, exactly, cell by cell.</summary>
        private ReadOnlySpan<double> Release(double step)
        {
            var any = false;
            var cell = _firstFoam;
            foreach (var pass in _plan.Passes)
            {
                if (cell == _slab.Count)
                    break;
                if (pass.ReleaseTime is { } release && release.Seconds > 0)
                {
                    if (!any)
                        _source = new double[_slab.Count];
                    any = true;
                    var (age, tau) = (_time - pass.At.Seconds, release.Seconds);
                    var heat = pass.Thickness.Meters / _grid.CellsPerPass * pass.Properties.HeatCapacity * pass.AdiabaticRise.Kelvins * (Math.Exp(-age / tau) - Math.Exp(-(age + step) / tau));
                    Array.Fill(_source, heat, cell, _grid.CellsPerPass);
                    _brought += heat * _grid.CellsPerPass;
                    _throughput += heat * _grid.CellsPerPass;
                }

                cell += _grid.CellsPerPass;
            }

            return any ? _source : [];
        }

        private ReadOnlySpan<double> Foam() => _slab.Temperatures.AsSpan(_firstFoam);

        private HeatReading Read(double after) => new(
            Duration.FromSeconds(after), Temperature.FromDegreesCelsius(_hottest), Temperature.FromDegreesCelsius(_slab.FrontTemperature),
            Temperature.FromDegreesCelsius(_firstFoam == 0 ? _slab.BackTemperature : _slab.Temperatures[_firstFoam]));

        private double DepthOf(int foamCell)
        {
            double above = 0;
            for (var i = _plan.Passes.Length - 1; i >= 0; i--)
            {
                var width = _plan.Passes[i].Thickness.Meters / _grid.CellsPerPass;
                if (foamCell >= i * _grid.CellsPerPass)
                    return above + ((i + 1) * _grid.CellsPerPass - foamCell - 0.5) * width;
                above += _plan.Passes[i].Thickness.Meters;
            }

            return above;
        }
    }
}
