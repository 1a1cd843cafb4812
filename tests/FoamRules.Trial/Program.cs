using FoamRules.Trial;

// The service under fire, each on a published command line (FOLDER has the program `foamrules`):
//   dotnet run -c Release --project tests/FoamRules.Trial -- instances FOLDER CONNECTION [SECONDS]   deploy/trial/run.sh does this
//   dotnet run -c Release --project tests/FoamRules.Trial -- overload FOLDER [SECONDS] [CALLS A SECOND]
//   dotnet run -c Release --project tests/FoamRules.Trial -- impatient FOLDER [SECONDS]
//   dotnet run -c Release --project tests/FoamRules.Trial -- abuse FOLDER
//   dotnet run -c Release --project tests/FoamRules.Trial -- soak FOLDER [MINUTES] [MILLISECONDS BETWEEN CALLS]
// Exit code 0: it held; 1: it did not, and what is printed says why; 2: unusable input.
int? Number(int at) => args.Length > at && int.TryParse(args[at], out var number) ? number : null;
try
{
    return args switch
    {
        ["instances", var folder, var connection, ..] => await InstancesTrial.Run(folder, connection, Number(3) ?? 240),
        ["overload", var folder, ..] => await OverloadTrial.Run(folder, Number(2) ?? 60, Number(3)),
        ["impatient", var folder, ..] => await ImpatientTrial.Run(folder, Number(2) ?? 40),
        ["abuse", var folder] => await AbuseTrial.Run(folder),
        ["soak", var folder, ..] => await SoakTrial.Run(folder, Number(2) ?? 30, Number(3) ?? 400),
        _ => (bool?)null,
    } switch
    { true => 0, false => 1, null => Usage() };
}
catch (InvalidOperationException error)
{
    Console.WriteLine(error.Message);
    return 1;
}
finally
{
    Instance.EndAll();
}

static int Usage()
{
    Console.Error.WriteLine("allowed: instances FOLDER CONNECTION [SECONDS], overload FOLDER [SECONDS] [CALLS A SECOND], impatient FOLDER [SECONDS], abuse FOLDER, soak FOLDER [MINUTES] [MILLISECONDS BETWEEN CALLS]");
    return 2;
}
