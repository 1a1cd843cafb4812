namespace FoamRules.Calculations;

/// <summary>
/// Heat conduction through layers, one-dimensional: cells with their temperature in the middle, fluxes between middles,
/// half a cell and a film at a face. Crank-Nicolson in time; the first steps after a jump are taken implicitly, because
/// Crank-Nicolson alone would ring. Written in increments, so the heat that leaves and the heat that is stored close.
/// SI numbers inside; the cells run from the back to the front.
/// </summary>
internal sealed class LayeredSlab
{
    private double[] _width = [], _conductivity = [], _capacity = [];
    private double[] _between = [], _multiplier = [], _inverse = [], _change = [];
    private double _factoredStep = double.NaN, _factoredWeight = double.NaN;

    private readonly double _backFilm, _backAir, _frontFilm, _frontAir;
    private double _backConductance, _frontConductance;

    /// <summary>A slab between a back and a front; a film of 0 is a face that passes no heat.</summary>
    public LayeredSlab(double backFilm, double backAir, double frontFilm, double frontAir) =>
        (_backFilm, _backAir, _frontFilm, _frontAir) = (backFilm, backAir, frontFilm, frontAir);

    /// <summary>Temperature in the middle of each cell.</summary>
    public double[] Temperatures { get; private set; } = [];

    public int Count => Temperatures.Length;

    /// <summary>Heat that has left through both faces, J/m².</summary>
    public double HeatLost { get; private set; }

    public double BackTemperature => Face(_backConductance, _backFilm, _backAir, Temperatures[0]);

    public double FrontTemperature => Face(_frontConductance, _frontFilm, _frontAir, Temperatures[^1]);

    /// <summary>Heat stored above 0 degrees, J/m².</summary>
    public double HeatStored
    {
        get
        {
            double sum = 0;
            for (var i = 0; i < Count; i++)
                sum += _capacity[i] * Temperatures[i];
            return sum;
        }
    }

    /// <summary>Puts a layer on the front.</summary>
    public void Add(int cells, double thickness, ThermalProperties material, double temperature)
    {
        var width = thickness / cells;
        Temperatures = [.. Temperatures, .. Enumerable.Repeat(temperature, cells)];
        _width = [.. _width, .. Enumerable.Repeat(width, cells)];
        _conductivity = [.. _conductivity, .. Enumerable.Repeat(material.K, cells)];
        _capacity = [.. _capacity, .. Enumerable.Repeat(width * material.HeatCapacity, cells)];

        var n = Count;
        _between = new double[n];
        for (var i = 0; i + 1 < n; i++)
            _between[i] = 1 / (_width[i] / 2 / _conductivity[i] + _width[i + 1] / 2 / _conductivity[i + 1]);
        _backConductance = Conductance(_backFilm, 0);
        _frontConductance = Conductance(_frontFilm, n - 1);
        (_multiplier, _inverse, _change) = (new double[n], new double[n], new double[n]);
        _factoredStep = double.NaN;
    }

    /// <summary>
    /// One step of time: weight ½ is Crank-Nicolson, 1 is implicit. The source is the heat released in each cell during
    /// the step, J/m², or empty. Returns the change of each cell, valid until the next step.
    /// </summary>
    public ReadOnlySpan<double> Step(double step, double weight, ReadOnlySpan<double> source)
    {
        if (step != _factoredStep || weight != _factoredWeight)
            Factor(step, weight);

        var n = Count;
        var (t, d) = (Temperatures, _change);
        double below = _backConductance * (_backAir - t[0]);
        for (var i = 0; i < n; i++)
        {
            // What flows out of cell i towards the front.
            var above = i + 1 < n ? _between[i] * (t[i] - t[i + 1]) : _frontConductance * (t[i] - _frontAir);
            d[i] = step * (below - above) + (source.IsEmpty ? 0 : source[i]);
            below = above;
        }

        for (var i = 1; i < n; i++)
            d[i] -= _multiplier[i] * d[i - 1];
        d[n - 1] *= _inverse[n - 1];
        for (var i = n - 2; i >= 0; i--)
            d[i] = (d[i] + weight * step * _between[i] * d[i + 1]) * _inverse[i];

        HeatLost += step * (_backConductance * (t[0] + weight * d[0] - _backAir) + _frontConductance * (t[n - 1] + weight * d[n - 1] - _frontAir));
        for (var i = 0; i < n; i++)
            t[i] += d[i];
        return d;
    }

    // The matrix is the same from step to step, so it is taken apart once.
    private void Factor(double step, double weight)
    {
        (_factoredStep, _factoredWeight) = (step, weight);
        var n = Count;
        for (var i = 0; i < n; i++)
        {
            var below = i > 0 ? _between[i - 1] : _backConductance;
            var above = i + 1 < n ? _between[i] : _frontConductance;
            var diagonal = _capacity[i] + weight * step * (below + above);
            if (i > 0)
            {
                _multiplier[i] = -weight * step * below * _inverse[i - 1];
                diagonal += _multiplier[i] * weight * step * below;
            }

            _inverse[i] = 1 / diagonal;
        }
    }

    private double Conductance(double film, int cell) => film > 0 ? 1 / (_width[cell] / 2 / _conductivity[cell] + 1 / film) : 0;

    private static double Face(double conductance, double film, double air, double cell) =>
        film > 0 ? air + conductance * (cell - air) / film : cell;
}
