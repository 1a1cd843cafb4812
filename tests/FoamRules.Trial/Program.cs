using FoamRules.Trial;

// The service under fire, each on a published command line (FOLDER has the program `foamrules`):
//   dotnet run -c Release --project tests/FoamRules.Trial -- instances FOLDER CONNECTION [SECONDS]   deploy/trial/run.sh does this
//   dotnet run -c Release --project tests/FoamRules.Trial -- overload FOLDER [SECONDS]
//   dotnet run -c Release --project tests/FoamRules.Trial -- abuse FOLDER
//   dotnet run -c Release --project tests/FoamRules.Trial -- soak FOLDER [MINUTES]
// Exit code 0: it held; 1: it did not, and what is printed says why; 2: unusable input.
int? Number(int at) => args.Length > at && int.TryParse(args[at], out var number) ? number : null;
switch (args)
{
    case ["instances", var folder, var connection, ..]:
        return await InstancesTrial.Run(folder, connection, Number(3) ?? 240) ? 0 : 1;
    case ["overload", var folder, ..]:
        return await OverloadTrial.Run(folder, Number(2) ?? 60) ? 0 : 1;
    case ["abuse", var folder]:
        return await AbuseTrial.Run(folder) ? 0 : 1;
    case ["soak", var folder, ..]:
        return await SoakTrial.Run(folder, Number(2) ?? 30) ? 0 : 1;
    default:
        Console.Error.WriteLine("allowed: instances FOLDER CONNECTION [SECONDS], overload FOLDER [SECONDS], abuse FOLDER, soak FOLDER [MINUTES]");
        return 2;
}
