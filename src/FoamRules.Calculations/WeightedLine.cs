namespace FoamRules.Calculations;

/// <summary>
/// The straight line y = a + b x by weighted least squares. A weight is the inverse of a point's variance, up to one
/// common factor. Worked from the weighted means, so that large offsets do not eat the digits.
/// Source: standard text on linear regression (from memory, certain); checked with the NIST StRD linear sets.
/// </summary>
internal sealed record WeightedLine(
    double Intercept,
    double Slope,
    double SumOfSquares,
    double MeanX,
    double Sxx,
    double SumOfWeights,
    int Count)
{
    /// <summary>Points less the two numbers fitted.</summary>
    public int DegreesOfFreedom => Count - 2;

    /// <summary>s² = Σw(y − ŷ)²/(n − 2); for two points there is none.</summary>
    public double Variance => SumOfSquares / DegreesOfFreedom;

    public double At(double x) => Intercept + Slope * x;

    /// <summary>The line, or null when the points do not have at least two different x.</summary>
    public static WeightedLine? Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> weight)
    {
        double w = 0, wx = 0, wy = 0;
        for (var i = 0; i < x.Length; i++)
        {
            w += weight[i];
            wx += weight[i] * x[i];
            wy += weight[i] * y[i];
        }

        double meanX = wx / w, meanY = wy / w, sxx = 0, sxy = 0;
        var oneX = true;
        for (var i = 0; i < x.Length; i++)
        {
            sxx += weight[i] * (x[i] - meanX) * (x[i] - meanX);
            sxy += weight[i] * (x[i] - meanX) * (y[i] - meanY);
            oneX &= x[i] == x[0];
        }

        if (oneX)
            return null;

        var slope = sxy / sxx;
        double squares = 0;
        for (var i = 0; i < x.Length; i++)
        {
            var residual = y[i] - meanY - slope * (x[i] - meanX);
            squares += weight[i] * residual * residual;
        }

        return new WeightedLine(meanY - slope * meanX, slope, squares, meanX, sxx, w, x.Length);
    }
}
