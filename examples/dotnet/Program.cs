// Sends a plan to a running FoamRules service and prints the report: dotnet run -- plan.json [http://localhost:5080]
using FoamRules.Contracts;
using FoamRules.Contracts.V1;
using Google.Protobuf;

using var client = new FoamRulesClient(new Uri(args.Length > 1 ? args[1] : "http://localhost:5080"));
var plan = JsonParser.Default.Parse<Plan>(File.ReadAllText(args[0]));
var report = await client.CheckAsync(plan);
Console.WriteLine(JsonFormatter.Default.Format(report));
return report.Disposition is Disposition.Stop or Disposition.Hold ? 1 : 0;
