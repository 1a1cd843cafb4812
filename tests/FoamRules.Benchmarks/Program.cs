using System.Globalization;
using BenchmarkDotNet.Running;
using FoamRules.Benchmarks;
using FoamRules.Benchmarks.Ratios;

// dotnet run -c Release --project tests/FoamRules.Benchmarks -- ratios
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- --filter '*'
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- fill-store CONNECTION REVIEWS
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- over-and-over ITEMS TIMES      # something for a profiler to look at
// dotnet run -c Release --project tests/FoamRules.Benchmarks -- call-over-and-over ROUNDS      # the same of calls
if (args is ["ratios"])
{
    await RatioTable.Write();
    return;
}

if (args is ["over-and-over", var items, var times])
{
    Plans.CheckOverAndOver(int.Parse(items, CultureInfo.InvariantCulture), int.Parse(times, CultureInfo.InvariantCulture));
    return;
}

if (args is ["call-over-and-over", var rounds])
{
    await Calls.OverAndOver(Plans.Message(2), int.Parse(rounds, CultureInfo.InvariantCulture));
    return;
}

if (args is ["fill-store", var place, var reviews])
{
    await StoreFill.Fill(place, int.Parse(reviews, CultureInfo.InvariantCulture));
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
