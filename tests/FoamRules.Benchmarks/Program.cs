using System.Globalization;
using BenchmarkDotNet.Running;
using FoamRules.Benchmarks;
using FoamRules.Benchmarks.Ratios;

// dotnet run -c Release --project tests/FoamRules.Benchmarks -- ratios
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- --filter '*'
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- fill-store CONNECTION REVIEWS
if (args is ["ratios"])
{
    await RatioTable.Write();
    return;
}

if (args is ["fill-store", var place, var reviews])
{
    await StoreFill.Fill(place, int.Parse(reviews, CultureInfo.InvariantCulture));
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
