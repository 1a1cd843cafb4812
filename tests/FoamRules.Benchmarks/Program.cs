using BenchmarkDotNet.Running;
using FoamRules.Benchmarks.Ratios;

// dotnet run -c Release --project tests/FoamRules.Benchmarks -- ratios
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- --filter '*'
if (args is ["ratios"])
{
    await RatioTable.Write();
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
