using CsCheck;

namespace FoamRules.Calculations.Tests;

/// <summary>
/// Runs a property on the same generated cases each time. CsCheck's own sampling seeds only the first case, and a build
/// that fails must fail again when it is repeated.
/// </summary>
internal static class FixedSeed
{
    public static void Holds<T>(this Gen<T> gen, Action<T> property, int cases = 200)
    {
        for (var i = 0; i < cases; i++)
        {
            var value = gen.Generate(new PCG(1, (ulong)i), null, out _);
            try
            {
                property(value);
            }
            catch (Exception exception)
            {
                throw new InvalidOperationException($"case {i}: {Check.Print(value)}", exception);
            }
        }
    }
}
