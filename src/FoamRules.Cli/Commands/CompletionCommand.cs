using System.CommandLine;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules completion</c>: a script with which a shell completes commands, options and their values.</summary>
internal static class CompletionCommand
{
    // Each asks the program itself, by the directive [suggest:POSITION], so that a script never goes stale.
    private static readonly SortedDictionary<string, string> Scripts = new(StringComparer.Ordinal)
    {
        ["bash"] = """
            _foamrules() {
              local IFS=$'\n'
              COMPREPLY=( $(compgen -W "$(foamrules "[suggest:$COMP_POINT]" "$COMP_LINE" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}") )
            }
            complete -o default -F _foamrules foamrules
            """,
        ["zsh"] = """
            #compdef foamrules
            _foamrules() {
              local -a words_found
              words_found=("${(@f)$(foamrules "[suggest:$CURSOR]" "$BUFFER" 2>/dev/null)}")
              compadd -a words_found
              _files
            }
            compdef _foamrules foamrules
            """,
        ["fish"] = """
            complete -c foamrules -a '(foamrules "[suggest:"(commandline -C)"]" (commandline) 2>/dev/null)'
            """,
        ["pwsh"] = """
            Register-ArgumentCompleter -Native -CommandName foamrules -ScriptBlock {
              param($word, $line, $position)
              foamrules "[suggest:$position]" "$line" | Where-Object { $_ -like "$word*" } | ForEach-Object {
                [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
              }
            }
            """,
    };

    public static Command Create()
    {
        var shell = new Argument<string>("SHELL") { Description = $"the shell: {string.Join(", ", Scripts.Keys)}", HelpName = "SHELL" };
        shell.AcceptOnlyFromAmong([.. Scripts.Keys]);
        var command = new Command("completion", """
            Prints a script with which a shell completes what is typed after foamrules. Exit code 0: printed; 2: another shell.

            Examples:
              foamrules completion bash > ~/.local/share/bash-completion/completions/foamrules
              foamrules completion zsh > "${fpath[1]}/_foamrules"
              foamrules completion fish > ~/.config/fish/completions/foamrules.fish
              foamrules completion pwsh >> $PROFILE
            """)
        {
            shell,
        };
        command.SetAction(parsed =>
        {
            Console.Out.Write(Scripts[parsed.GetValue(shell)!] + "\n");
            return ExitCode.Proceed;
        });
        return command;
    }
}
