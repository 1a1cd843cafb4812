return await FoamRules.Cli.CommandLine.Run(args);
