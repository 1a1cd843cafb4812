using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>Reads <c>rule-set.yaml</c>.</summary>
internal static partial class RuleSetHeadReader
{
    private static readonly string[] Statuses = ["draft", "in-force", "withdrawn"];

    public static RuleSetHead Read(EntryReader reader, Problems problems)
    {
        var places = ((MapNode)reader.Node).Entries.ToImmutableDictionary(entry => entry.Name, entry => problems.Place(entry.Value, entry.Name))
            .SetItem("", problems.Place(reader.Node, ""));
        var (from, until) = ReadEffective(reader, problems);
        var (countries, region) = ReadJurisdiction(reader, problems);
        var head = new RuleSetHead
        {
            Title = reader.RequiredText("title"),
            Version = reader.RequiredText("version"),
            Status = ReadStatus(reader, problems),
            From = from,
            Until = until,
            Countries = countries,
            Region = region,
            Level = ReadLevel(reader, problems),
            Above = reader.Text("above"),
            Adopts = [.. (reader.Texts("adopts") ?? []).Select(name => name.Text)],
            EditionOf = reader.Text("edition-of"),
            TopicsNotJudged = [.. (reader.Texts("topics-not-judged") ?? []).Select(topic => topic.Text)],
            Places = places,
        };
        _ = reader.Text("note");
        reader.Done();
        return head;
    }

    private static Level ReadLevel(EntryReader head, Problems problems)
    {
        var text = head.RequiredText("level");
        if (Enum.TryParse<Level>(text.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out var level) && Enum.IsDefined(level) && !char.IsDigit(text[0]))
        {
            return level;
        }

        problems.Add(head.Child("level") ?? head.Node, "level", $"`{text}`", "general-practice, country, region, local-authority, company or project", "use one of these");
        return Level.GeneralPractice;
    }

    private static RuleSetStatus ReadStatus(EntryReader head, Problems problems)
    {
        var text = head.Text("status") ?? "in-force";
        var known = Array.IndexOf(Statuses, text);
        if (known < 0)
        {
            problems.Add(head.Child("status")!, "status", $"`{text}`", string.Join(", ", Statuses), "use one of these; a set without a status is in force");
        }

        return known < 0 ? RuleSetStatus.Draft : (RuleSetStatus)(known + 1);
    }

    private static (DateOnly? From, DateOnly? Until) ReadEffective(EntryReader head, Problems problems)
    {
        if (head.Child("effective") is not { } node)
        {
            return (null, null);
        }

        var reader = new EntryReader(node, "effective", problems);
        var from = Date("from");
        var until = Date("until");
        reader.Done();
        if (from > until)
        {
            problems.Add(reader.Child("until")!, "effective.until", $"{until:yyyy-MM-dd}, before the first day", $"a day not before {from:yyyy-MM-dd}", "give the last day on which it holds, or leave it out");
        }

        return (from, until);

        DateOnly? Date(string name)
        {
            if (reader.Text(name) is not { } text)
            {
                return null;
            }

            if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
            {
                return date;
            }

            problems.Add(reader.Child(name)!, $"effective.{name}", $"`{text}`", "a calendar date", "write it like 2026-01-01");
            return null;
        }
    }

    private static (ImmutableArray<string> Countries, string? Region) ReadJurisdiction(EntryReader head, Problems problems)
    {
        if (head.Child("jurisdiction") is not { } node)
        {
            return ([], null);
        }

        var reader = new EntryReader(node, "jurisdiction", problems);
        var countries = reader.Texts("country") ?? [];
        var region = reader.Text("region");
        reader.Done();
        foreach (var (text, at) in countries.Where(country => !Country().IsMatch(country.Text)))
        {
            problems.Add(at, "jurisdiction.country", $"`{text}`", "a country by ISO 3166-1, such as US", "write its two capital letters");
        }

        if (countries.IsEmpty)
        {
            problems.Add(reader.Node, "jurisdiction.country", "nothing", "one country by ISO 3166-1, or several", "give the country, or leave the jurisdiction out");
        }

        if (region is not null && (!Region().IsMatch(region) || !countries.Any(country => region.StartsWith(country.Text + "-", StringComparison.Ordinal))))
        {
            problems.Add(reader.Child("region")!, "jurisdiction.region", $"`{region}`", "a region of the country by ISO 3166-2, such as US-WA", "write the country's letters, a hyphen and the region's");
        }

        return ([.. countries.Select(country => country.Text)], region);
    }

    [GeneratedRegex("^[A-Z]{2}$")]
    private static partial Regex Country();

    [GeneratedRegex("^[A-Z]{2}-[A-Z0-9]{1,3}$")]
    private static partial Regex Region();
}
