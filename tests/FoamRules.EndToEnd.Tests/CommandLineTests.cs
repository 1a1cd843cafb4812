using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Google.Protobuf;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The command line as its users call it.</summary>
public sealed class CommandLineTests : IDisposable
{
    private readonly TemporaryFolder _files = new();

    public void Dispose() => _files.Dispose();

    [Fact]
    public async Task Every_requirement_s_first_cases_come_out_of_the_command_line_as_expected()
    {
        // All cases go through the engine and over the wire; here the first that is met and the first that is not, since whole reports as text take long.
        var cases = CaseFiles.Read().SelectMany(file => file.Firsts()).ToList();
        var files = cases.Select((one, i) => _files.Write($"{i:D5}.json", one.PlanJson)).ToList();
        var reports = new List<Model.Report>();
        // In portions: one process for all would come near the patience for a process on a busy machine.
        foreach (var portion in files.Chunk(500))
        {
            var ran = await Programs.FoamRules(["check", "--format", "json", .. portion]);
            Assert.True(ran.Errors.Length == 0, ran.Errors);
            reports.AddRange(ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => ReportMapper.ToReport(JsonParser.Default.Parse<Report>(line))));
        }

        Assert.Equal(cases.Count, reports.Count);
        var wrong = cases.Zip(reports).Select(pair => CaseCheck.Mismatch(pair.First, pair.Second)).OfType<string>().ToList();
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    [Theory]
    [InlineData("cold-store-dock.yaml", 0, "PROCEED")]
    [InlineData("cold-store-dock-broken.yaml", 20, "STOP")]
    public async Task The_exit_code_says_what_the_first_word_says(string plan, int code, string word)
    {
        var ran = await Programs.FoamRulesProcess("check", Repository.PathOf("shared", "plans", plan));
        Assert.Equal(code, ran.Code);
        Assert.StartsWith(word, ran.Output, StringComparison.Ordinal);
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
    }

    [Fact]
    public async Task Plans_come_as_one_log_by_sarif_with_a_run_for_each()
    {
        var ran = await Programs.FoamRules("check", "--format", "sarif", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"));
        Assert.Equal((20, ""), (ran.Code, ran.Errors));
        var runs = System.Text.Json.Nodes.JsonNode.Parse(ran.Output)!["runs"]!.AsArray();
        Assert.Equal(["proceed-with-cautions", "stop"], runs.Select(run => (string)run!["properties"]!["disposition"]!));
        Assert.All(runs, run => Assert.NotEmpty((string)run!["tool"]!["driver"]!["rules"]![0]!["help"]!["text"]!));
    }

    [Fact]
    public async Task A_report_as_a_file_stands_alone()
    {
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), "--format", "html", "--for", "safety", "--language", "es");
        Assert.Equal(20, ran.Code);
        Assert.StartsWith("<!DOCTYPE html>", ran.Output, StringComparison.Ordinal);
        Assert.Contains("<html lang=\"es\"", ran.Output, StringComparison.Ordinal);
        Assert.Contains("vent.air-can-leave", ran.Output, StringComparison.Ordinal);
        Assert.Contains("<b>2026-04-10 09:00</b> <small>America/Chicago</small>", ran.Output, StringComparison.Ordinal);
        Assert.Contains("<svg", ran.Output, StringComparison.Ordinal);
        Assert.Contains(".placard", ran.Output, StringComparison.Ordinal);
        Assert.DoesNotMatch("(src|href)=|<script|url\\((?!#)", ran.Output);
    }

    [Fact]
    public async Task A_report_as_a_file_is_whole_for_who_has_no_command_to_show_the_rest()
    {
        string[] command = ["check", Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), "--format", "html"];
        var (ran, whole) = (await Programs.FoamRules(command), await Programs.FoamRules([.. command, "--all"]));
        Assert.Equal(whole.Output, ran.Output);
        Assert.Contains("gear.", ran.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("--all", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_amended_plan_is_a_new_file_that_keeps_the_comments_and_has_what_was_found()
    {
        var plan = Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml");
        var amended = Path.Combine(_files.Path, "amended.yaml");
        var ran = await Programs.FoamRules("check", plan, "--fix", amended);
        Assert.Equal(20, ran.Code);
        Assert.Contains("Tried: ", ran.Output, StringComparison.Ordinal);
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
        var text = await File.ReadAllTextAsync(amended, TestContext.Current.CancellationToken);
        Assert.Contains("{ thickness: { inches: 2 }, wait_before: { minutes: 60 }, day: 1 } # wrong: one pass of 4 in", text, StringComparison.Ordinal);
        var again = await Programs.FoamRules("check", amended);
        Assert.DoesNotContain("pass.thickness-within-limit", again.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("is there already", "there.yaml", "there.yaml")]
    [InlineData("it amends one plan at a time", "new.yaml", "there.yaml", "there.yaml")]
    [InlineData("this one is JSON", "new.yaml", "case.json")]
    public async Task An_amended_plan_that_cannot_be_written_is_refused_with_a_sentence(string sentence, string fix, params string[] plans)
    {
        var broken = await File.ReadAllTextAsync(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), TestContext.Current.CancellationToken);
        var there = _files.Write("there.yaml", broken);
        _files.Write("case.json", CaseFiles.Read().Single(file => file.Requirement == "pass.thickness-within-limit").Cases.First(one => one.Outcome == Model.Outcome.NotMet).PlanJson);
        var ran = await Programs.FoamRules(["check", "--fix", Path.Combine(_files.Path, fix), .. plans.Select(plan => Path.Combine(_files.Path, plan))]);
        Assert.Equal(2, ran.Code);
        Assert.Contains(sentence, ran.Errors, StringComparison.Ordinal);
        Assert.Equal(broken, await File.ReadAllTextAsync(there, TestContext.Current.CancellationToken));
        Assert.False(File.Exists(Path.Combine(_files.Path, "new.yaml")));
    }

    [Fact]
    public async Task Bad_plans_are_unusable_and_named_by_path_and_line_and_nothing_is_judged()
    {
        foreach (var bad in BadPlan.Read())
        {
            var ran = await Programs.FoamRules("check", _files.Write("bad.yaml", bad.Text));
            Assert.Equal((2, ""), (ran.Code, ran.Output));
            Assert.All(bad.Paths, path => Assert.Contains(path, ran.Errors, StringComparison.Ordinal));
            Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("check")]
    [InlineData("check", "no-such-file.yaml")]
    [InlineData("check", "plan.yaml", "--stage", "someday")]
    [InlineData("check", "plan.yaml", "--units", "cubits")]
    [InlineData("check", "plan.yaml", "--format", "paper")]
    [InlineData("check", "plan.yaml", "--for", "everybody")]
    [InlineData("check", "plan.yaml", "--server", "nonsense")]
    [InlineData("rules", "no.such-requirement")]
    [InlineData("rules", "--rule-set", "nowhere")]
    [InlineData("serve", "--port", "99999")]
    [InlineData("calc", "no-such-calculation")]
    [InlineData("calc", "--input", "air.yaml")]
    [InlineData("calc", "dew-point", "--input", "no-such-file.yaml")]
    [InlineData("calc", "dew-point", "--units", "cubits")]
    [InlineData("fly")]
    public async Task Arguments_that_cannot_be_used_are_answered_with_2_and_a_reason(params string[] arguments)
    {
        var ran = await Programs.FoamRules(arguments);
        Assert.Equal(2, ran.Code);
        Assert.NotEmpty(ran.Errors);
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_rule_set_is_named_with_those_that_are_there()
    {
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), "--rule-set", "nowhere");
        Assert.Equal(2, ran.Code);
        Assert.Contains("us-ibc-2021", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task With_all_a_finding_says_which_layer_decided_and_what_the_others_say()
    {
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), "--rule-set", "example-company", "--all");
        Assert.Equal(20, ran.Code);
        // The line is longer than the page is wide.
        var unbroken = string.Join(' ', ran.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("Limit: example-company says at most 6 (months); general-practice says at most 12 (months), us-federal says", unbroken, StringComparison.Ordinal);
        Assert.Contains("Rule sets: More than one edition stands of the same document (us-ibc-2018, us-ibc-2021)", ran.Output, StringComparison.Ordinal);
        Assert.Contains("RELAXATIONS IN FORCE", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broken_rule_set_is_named_with_file_line_and_column_and_nothing_is_judged()
    {
        _files.Write("rules/general-practice/rule-set.yaml", "title: Broken\nversion: 1\nlevel: general-practise\n");
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), "--rules", Path.Combine(_files.Path, "rules"));
        Assert.Equal(2, ran.Code);
        Assert.Contains("general-practice/rule-set.yaml(", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_unusable_plan_among_several_does_not_stop_the_others_and_decides_the_exit_code()
    {
        var good = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");
        var ran = await Programs.FoamRules("check", "--format", "json", good, _files.Write("bad.yaml", "name: x"), good);
        Assert.Equal(2, ran.Code);
        Assert.Equal(2, ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task Several_plans_are_answered_in_their_order_with_a_summary_and_nothing_else_on_a_pipe()
    {
        string[] plans = [Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), _files.Write("bad.yaml", "name: x"), Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), Repository.PathOf("shared", "plans", "cold-store-dock-quote.yaml")];
        var ran = await Programs.FoamRules(["check", .. plans]);
        Assert.Equal(2, ran.Code);
        Assert.DoesNotContain('\u001b', ran.Output + ran.Errors);
        Assert.StartsWith("STOP  Cold-store dock, north side, as first drawn up", ran.Output, StringComparison.Ordinal);
        var lines = ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        Assert.Equal("4 plans: 1 stop, 0 hold, 2 without a stop or hold, 1 cannot be used", lines[^1]);
        Assert.Equal(plans, lines[^5..^1].Select(line => line.Split(' ')[0]));
        Assert.Contains("CANNOT BE USED", lines[^4], StringComparison.Ordinal);
        Assert.Matches(@"STOP\s+5\s+\d+\s+\d+$", lines[^5]);
    }

    [Theory]
    [InlineData("json")]
    [InlineData("jsonl")]
    public async Task Many_plans_give_a_report_a_line_in_their_order(string format)
    {
        var names = Enumerable.Range(1, 40).Select(number => $"plan {number}").ToList();
        var text = File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock-quote.yaml"));
        var files = names.Select(name => _files.Write($"{name}.yaml", text.Replace("name: Cold-store dock, north side, inquiry", $"name: {name}", StringComparison.Ordinal))).ToList();
        var ran = await Programs.FoamRules(["check", "--format", format, .. files]);
        Assert.True(ran.Errors.Length == 0, ran.Errors);
        Assert.Equal(names, ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonParser.Default.Parse<Report>(line).PlanName));
    }

    [Theory]
    [InlineData("office", "IN THE PRICE")]
    [InlineData("safety", "HAZARD, ")]
    [InlineData("crew", "STOP FOR THIS")]
    public async Task A_report_is_arranged_for_whoever_reads_it(string reader, string holds)
    {
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), "--for", reader);
        Assert.Equal(20, ran.Code);
        Assert.StartsWith("STOP", ran.Output, StringComparison.Ordinal);
        Assert.Contains(holds, ran.Output, StringComparison.Ordinal);
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
    }

    [Fact]
    public async Task A_plan_can_come_through_standard_input()
    {
        var text = File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml"));
        var fromFile = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"));
        var start = Programs.FoamRulesStart("check", "-");
        var fromInput = await Programs.Run(start.FileName, [.. start.ArgumentList], input: text);
        Assert.Equal(fromFile.Output, fromInput.Output);
    }

    [Fact]
    public async Task The_rules_can_be_listed_and_explained()
    {
        var list = await Programs.FoamRules("rules");
        Assert.All(Rules.Engine.AllRequirements.Makers.Keys, id => Assert.Contains(id, list.Output, StringComparison.Ordinal));
        var one = await Programs.FoamRules("rules", "vent.air-can-leave");
        Assert.Contains("at least 1", one.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_command_s_help_has_an_example_and_its_exit_codes()
    {
        var root = await Programs.FoamRules("--help");
        var commands = root.Output[root.Output.LastIndexOf("Commands:", StringComparison.Ordinal)..].Split('\n').Skip(1).Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries).FirstOrDefault())
            .TakeWhile(name => name is not null).ToList();
        Assert.Contains("completion", commands);
        foreach (var help in await Task.WhenAll(commands.Select(name => Programs.FoamRules(name!, "--help"))))
        {
            Assert.Equal(0, help.Code);
            Assert.Contains("foamrules ", help.Output[help.Output.IndexOf("Example", StringComparison.Ordinal)..], StringComparison.Ordinal);
            Assert.True(help.Output.Contains("xit code", StringComparison.Ordinal), help.Output);
        }
    }

    [Theory]
    [InlineData("see: foamrules --help", "nothing-of-this-name")]
    [InlineData("see: foamrules check --help", "check")]
    [InlineData("see: foamrules review sign-off --help", "review", "sign-off", "0")]
    public async Task What_is_typed_wrong_is_answered_with_where_its_help_is(string hint, params string[] typed)
    {
        var ran = await Programs.FoamRules(typed);
        Assert.Equal(2, ran.Code);
        Assert.Equal(hint, ran.Errors.TrimEnd().Split('\n')[^1]);
    }

    [Theory]
    [InlineData("foamrules ch", "check")]
    [InlineData("foamrules check --st", "--stage")]
    [InlineData("foamrules completion ", "zsh")]
    public async Task Bash_completes_what_is_typed(string typed, string completed)
    {
        Assert.SkipUnless(Programs.Has("bash"), "needs bash");
        var script = _files.Write("completion.bash", (await Programs.FoamRules("completion", "bash")).Output);
        var words = typed.Split(' ');
        var ran = await Programs.Run("bash", ["--norc", "-c", $$"""
            foamrules() { dotnet '{{Programs.Cli}}' "$@"; }
            source '{{script}}'
            COMP_LINE='{{typed}}' COMP_POINT={{typed.Length}} COMP_WORDS=({{string.Join(' ', words.Select(word => $"'{word}'"))}}) COMP_CWORD={{words.Length - 1}}
            _foamrules
            printf '%s\n' "${COMPREPLY[@]}"
            """]);
        Assert.Contains(completed, ran.Output.Split('\n'));
        Assert.All(ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries), word => Assert.StartsWith(words[^1], word, StringComparison.Ordinal));
        Assert.Equal("", ran.Errors);
    }

    [Fact]
    public async Task Colour_comes_only_on_a_terminal_and_never_with_no_color()
    {
        Assert.SkipUnless(Programs.Has("script"), "needs script, of util-linux");
        var plan = Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml");
        string[] check = ["check", plan, plan];
        var piped = await Programs.FoamRules(check);
        Assert.DoesNotContain('\u001b', piped.Output);
        var quoted = string.Join(' ', check.Prepend(Programs.Cli).Prepend("dotnet").Select(word => $"'{word}'"));
        var onTerminal = await Programs.Run("script", ["--quiet", "--command", quoted, Path.Combine(_files.Path, "typescript")], environment: [("TERM", "xterm-256color"), ("COLUMNS", "100")]);
        Assert.Contains("\u001b[", onTerminal.Output[onTerminal.Output.LastIndexOf("outcome", StringComparison.Ordinal)..], StringComparison.Ordinal);
        var without = await Programs.Run("script", ["--quiet", "--command", quoted, Path.Combine(_files.Path, "typescript")], environment: [("TERM", "xterm-256color"), ("COLUMNS", "100"), ("NO_COLOR", "1")]);
        Assert.DoesNotMatch("\u001b\\[[0-9;]*3[0-9]", without.Output);
        // What colour says, a word says.
        Assert.Contains("STOP", without.Output[without.Output.LastIndexOf("outcome", StringComparison.Ordinal)..], StringComparison.Ordinal);
    }
}
