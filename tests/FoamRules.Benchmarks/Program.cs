using BenchmarkDotNet.Running;

// dotnet run -c Release --project tests/FoamRules.Benchmarks -- --filter '*'
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
