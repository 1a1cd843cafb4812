using System.CommandLine;
using System.Text.Json;
using FoamRules.Access;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules key</c>: API keys for a service that asks who calls.</summary>
internal static class KeyCommand
{
    private static readonly JsonSerializerOptions Json = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    public static Command Create() => new("key", """
        Makes API keys for a service that asks who calls. Exit code 0: made; 2: unusable input.

        Example:
          foamrules key new --name "estimating tool" --role office
        """)
    {
        New(),
    };

    private static Command New()
    {
        var name = new Option<string>("--name") { Description = "the caller's name, which stands on record", Required = true };
        var roles = new Option<string[]>("--role") { Description = "a role that the holder has; may be given several times", Required = true };
        roles.AcceptOnlyFromAmong([.. Roles.ByWord.Keys]);
        var until = new Option<DateTimeOffset?>("--until") { Description = "until when it is taken, such as 2027-01-31T00:00Z; left out: until it is struck from the list" };
        var command = new Command("new", """
            Makes a key. The key itself goes to standard error, once; nobody can show it again. Standard output gets its entry for
            access.apiKeys, or for the file that access.apiKeyFile names, in which only its hash stands.

            To put a new key in the place of an old one: add the new entry under the same name, hand the key over, then strike the old entry.

            Example:
              foamrules key new --name "estimating tool" --role office --until 2027-01-31T00:00Z
            """) { name, roles, until };
        command.SetAction(parsed =>
        {
            var key = ApiKey.Make();
            Console.Error.WriteLine($"the key, shown this once: {key}");
            Console.Out.WriteLine(JsonSerializer.Serialize(
                new ApiKeyOptions { Name = parsed.GetRequiredValue(name), Roles = [.. parsed.GetRequiredValue(roles)], Hash = ApiKey.HashOf(key), Until = parsed.GetValue(until)?.ToString("O") }, Json));
            return ExitCode.Proceed;
        });
        return command;
    }
}
