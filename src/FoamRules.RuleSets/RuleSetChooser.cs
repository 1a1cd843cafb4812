using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>
/// Chooses the rule sets for one plan: general practice; those of its country and region; those that are named; and what these stand
/// on or adopt. The work date picks the edition. Where country, region, edition or day is not known, all that could hold stand
/// together, and the stricter limit counts.
/// </summary>
internal sealed class RuleSetChooser
{
    // A union has dozens, and a note has one line.
    private const int MostCountries = 3;

    private readonly IReadOnlyDictionary<string, RuleSet> _all;
    private readonly RuleSetQuestion _question;
    private readonly List<Phrase> _notes = [];
    private readonly List<Violation> _violations = [];
    private readonly Dictionary<string, RuleSet> _chosen = new(StringComparer.Ordinal);

    // Editions that are named, or adopted by a layer that surely holds: no other edition of their document stands beside them.
    private readonly HashSet<string> _picked = new(StringComparer.Ordinal);
    private readonly HashSet<string> _documents = new(StringComparer.Ordinal);

    private RuleSetChooser(IReadOnlyDictionary<string, RuleSet> all, RuleSetQuestion question)
    {
        _all = all;
        _question = question;
    }

    public static RuleSetChoice Choose(IReadOnlyDictionary<string, RuleSet> all, RuleSetQuestion question) => new RuleSetChooser(all, question).Choose();

    private RuleSetChoice Choose()
    {
        foreach (var name in _question.Named.Distinct(StringComparer.Ordinal))
        {
            TakeNamed(name);
        }

        if (_violations.Count > 0)
        {
            return new RuleSetChoice([], [], [.. _violations]);
        }

        var byPlace = ByPlace().ToList();
        foreach (var set in byPlace.Where(set => set.Head.EditionOf is null))
        {
            Take(set, isSure: _question.Country is not null && (set.Head.Region is null || _question.Region is not null));
        }

        TakeEditions(byPlace);
        if (_all.TryGetValue(RuleLibrary.GeneralPractice, out var practice))
        {
            _chosen[practice.Id] = practice;
        }

        NoteCountries();
        return new RuleSetChoice(new Layering(_chosen.Values).LowestFirst, [.. _notes], []);
    }

    private void TakeNamed(string name)
    {
        if (_all.TryGetValue(name, out var set))
        {
            if (set.Head.Status == RuleSetStatus.Withdrawn)
            {
                Refuse($"{name}, which is withdrawn", InForceInsteadOf(set));
            }
            else if (!set.Head.IsEffectiveOn(_question.WorkDate))
            {
                Refuse($"{name}, which is not in force on the work date {Day(_question.WorkDate!.Value)} ({Span(set)})", InForceInsteadOf(set));
            }
            else
            {
                Take(set, isSure: true);
                if (set.Head.Status == RuleSetStatus.Draft)
                {
                    Note("choice-draft", $"{name} is a draft: it counts here because it was named.", ("set", Name(name)));
                }
            }
        }
        else if (_all.Values.Any(one => one.Head.EditionOf == name))
        {
            _documents.Add(name);
            if (!InForce(name).Any())
            {
                Refuse(
                    _question.WorkDate is { } day ? (Said)$"{name}, of which no edition is in force on {Day(day)}" : $"{name}, of which no edition is in force",
                    Listed(EditionsOf(name).Select(one => (Said)$"{one.Id} ({StatusWord(one)}, {Span(one)})")));
            }
        }
        else
        {
            var names = _all.Keys.Concat(_all.Values.Select(one => one.Head.EditionOf).OfType<string>().Distinct()).Order(StringComparer.Ordinal).ToList();
            var nearest = names.MinBy(known => Closeness.Distance(known, name));
            Refuse($"the unknown rule set `{name}`", Said.Name(string.Join(", ", names)), nearest is null ? "name a rule set that is there" : (Said)$"name a rule set that is there; did you mean {nearest}?");
        }
    }

    private void Refuse(Said found, Said? allowed, Said? remedy = null) => _violations.Add(new Violation(
        "rule_sets", found, allowed ?? "no rule set of its document or place is in force then", remedy ?? "name one that is in force then, or leave it out"));

    private static Said? Listed(IEnumerable<Said> parts) => parts.Aggregate((Said?)null, (list, part) => list is null ? part : (Said)$"{list}, {part}");

    // The rule sets of the plan's place that are in force on its day; where the place is not known, of all places.
    private IEnumerable<RuleSet> ByPlace()
    {
        if (_question.Country is not { } country)
        {
            if (_question.Named.Count > 0)
            {
                Note("choice-no-country-named", "The plan names no country: only the rule sets that were named are used. Give jurisdiction.country, so that the rules of the place are used too.");
                return [];
            }

            Note("choice-no-country", "The plan names no country and no rule set: the rules of every country here stand together, and of each limit the stricter counts. Give jurisdiction.country.");
            return Counting(_all.Values.Where(set => !set.Head.Countries.IsEmpty));
        }

        var ofCountry = _all.Values.Where(set => set.Head.Countries.Contains(country)).ToList();
        if (ofCountry.Count == 0)
        {
            Note("choice-no-law", $"No rule set here is written for {country}: its law is not judged. Judge it by hand, or name a rule set of your own under rule_sets.", ("country", Name(country)));
        }

        var regions = ofCountry.Select(set => set.Head.Region).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToList();
        if (_question.Region is null && regions.Count > 0)
        {
            Note(
                "choice-no-region", $"The plan names no region of {country}: the rules of {string.Join(", ", regions)} stand too, and of each limit the stricter counts. Give jurisdiction.region.",
                ("country", Name(country)), ("regions", Name(string.Join(", ", regions))));
        }

        return Counting(ofCountry.Where(set => set.Head.Region is not { } region || _question.Region is null || region == _question.Region));
    }

    private IEnumerable<RuleSet> Counting(IEnumerable<RuleSet> ofPlace)
    {
        foreach (var set in ofPlace.Where(set => set.Head.Status == RuleSetStatus.InForce).OrderBy(set => set.Id, StringComparer.Ordinal).ToList())
        {
            if (set.Head.IsEffectiveOn(_question.WorkDate))
            {
                yield return set;
            }
            else if (_question.Country is not null)
            {
                Note(
                    "choice-not-in-force", $"{set.Id} is not used: it is not in force on the work date {Day(_question.WorkDate!.Value)} ({Window(set).English}).",
                    ("set", Name(set.Id)), ("day", Measure.OfDate(_question.WorkDate.Value)), ("window", Measure.OfPhrase(Window(set))));
            }
        }
    }

    private void Take(RuleSet set, bool isSure)
    {
        var taken = Layering.Closure(set.Id, _all).Select(id => _all[id]).Prepend(set).ToList();
        foreach (var one in taken)
        {
            if (_chosen.TryAdd(one.Id, one) && one != set && !one.Head.IsEffectiveOn(_question.WorkDate))
            {
                Note(
                    "choice-stood-on", $"{one.Id} is used because {set.Id} stands on it, though it is not in force on the work date ({Window(one).English}).",
                    ("set", Name(one.Id)), ("upper", Name(set.Id)), ("window", Measure.OfPhrase(Window(one))));
            }
        }

        if (isSure)
        {
            _picked.UnionWith(taken.Where(one => one.Head.EditionOf is not null).Select(one => one.Id));
        }
    }

    private void TakeEditions(List<RuleSet> byPlace)
    {
        var documents = byPlace.Select(set => set.Head.EditionOf).OfType<string>().Concat(_documents).Distinct().Order(StringComparer.Ordinal);
        foreach (var document in documents)
        {
            if (!EditionsOf(document).Any(one => _picked.Contains(one.Id)))
            {
                foreach (var edition in _documents.Contains(document) ? InForce(document) : byPlace.Where(one => one.Head.EditionOf == document))
                {
                    Take(edition, isSure: false);
                }
            }
        }

        // Editions that only a layer brings which may not hold here stand beside the others, and the stricter limit counts.
        NoteEditions();
        var dated = _chosen.Values.Where(set => set.Head.From is not null || set.Head.Until is not null).Select(set => set.Id).Order(StringComparer.Ordinal).ToList();
        if (_question.WorkDate is null && dated.Count > 0)
        {
            var sets = string.Join(", ", dated);
            Note(dated.Count == 1 ? "choice-no-date-one" : "choice-no-date", $"The plan gives no work date: {sets} {(dated.Count == 1 ? "counts" : "count")} whatever the day. Give work_date.", ("sets", Name(sets)));
        }
    }

    private void NoteEditions()
    {
        const string Picked = "all of them are named or adopted. Of each limit the stricter counts.", Left = "Of each limit the stricter counts. Name the edition that is adopted under rule_sets.";
        var several = new Layering(_chosen.Values).Editions.Select(editions => (Ids: string.Join(", ", editions.Order(StringComparer.Ordinal)), Picked: editions.Count(_picked.Contains) > 1)).ToList();
        Several(several.Where(one => one.Picked), "choice-editions-picked", Picked);
        var open = several.Where(one => !one.Picked);
        if (_question.WorkDate is { } day)
        {
            Several(open, "choice-editions-in-force", $"no plan and no layer picks one, and all are in force on {Day(day)}. {Left}", ("day", Measure.OfDate(day)));
        }
        else
        {
            Several(open, "choice-editions-no-date", $"no plan and no layer picks one, and there is no work date. {Left}");
        }

        void Several(IEnumerable<(string Ids, bool Picked)> those, string key, string why, params (string Word, Measure Value)[] words)
        {
            if (those.Select(one => one.Ids).ToList() is { Count: > 0 } ids)
            {
                var editions = string.Join("; ", ids);
                Note(key, $"More than one edition stands of the same document ({editions}): {why}", [.. words, ("editions", Name(editions))]);
            }
        }
    }

    private void NoteCountries()
    {
        var national = _chosen.Values.Where(set => !set.Head.Countries.IsEmpty).OrderBy(set => set.Id, StringComparer.Ordinal).ToList();
        var foreign = _question.Country is { } country
            ? national.Exists(set => !set.Head.Countries.Contains(country))
            : _question.Named.Count > 0 && national.Count > 0 && !national[0].Head.Countries.Any(one => national.TrueForAll(set => set.Head.Countries.Contains(one)));
        if (foreign)
        {
            const string Stricter = "Of each limit the stricter counts, and what only one of them asks is asked too.";
            var named = string.Join(", ", national.Select(set => $"{set.Id} ({string.Join(" ", set.Head.Countries.Take(MostCountries))}{(set.Head.Countries.Length > MostCountries ? " …" : "")})"));
            if (_question.Country is { } own)
            {
                Note("choice-foreign", $"The plan's country is {own}, and rule sets of another are in use: {named}. {Stricter}", ("country", Name(own)), ("sets", Name(named)));
            }
            else
            {
                Note("choice-several-countries", $"Rule sets of more than one country are in use: {named}. {Stricter}", ("sets", Name(named)));
            }
        }
    }

    private void Note(string key, string english, params (string Word, Measure Value)[] words) => _notes.Add(PhraseOf(key, english, words));

    private static Phrase PhraseOf(string key, string english, params (string Word, Measure Value)[] words) =>
        new(key) { English = english, Words = words.ToImmutableDictionary(word => word.Word, word => word.Value) };

    private static Measure Name(string name) => Measure.OfText(name);

    private IEnumerable<RuleSet> EditionsOf(string document) => _all.Values.Where(one => one.Head.EditionOf == document).OrderBy(one => one.Id, StringComparer.Ordinal);

    private IEnumerable<RuleSet> InForce(string document) =>
        EditionsOf(document).Where(one => one.Head.Status == RuleSetStatus.InForce && one.Head.IsEffectiveOn(_question.WorkDate));

    private Said? InForceInsteadOf(RuleSet set)
    {
        var instead = set.Head.EditionOf is { } document
            ? InForce(document)
            : _all.Values.Where(one => one.Id != set.Id && one.Level == set.Level && one.Head.Region == set.Head.Region && one.Head.Countries.Intersect(set.Head.Countries).Any()
                && one.Head.EditionOf is null && one.Head.Status == RuleSetStatus.InForce && one.Head.IsEffectiveOn(_question.WorkDate));
        var ids = string.Join(", ", instead.Select(one => one.Id));
        return ids.Length == 0 ? null : _question.WorkDate is { } day ? (Said)$"in force on {Day(day)}: {ids}" : $"in force: {ids}";
    }

    private static Said StatusWord(RuleSet set) => set.Head.Status switch { RuleSetStatus.Draft => "a draft", RuleSetStatus.Withdrawn => "withdrawn", _ => "in force" };

    // What a language has no key for is said as the span is.
    private static Phrase Window(RuleSet set)
    {
        var days = new (string Word, DateOnly? Day)[] { ("from", set.Head.From), ("until", set.Head.Until) }.Where(one => one.Day is not null).ToList();
        var key = string.Join("-", ["window", .. days.Count == 0 ? ["none"] : days.Select(one => one.Word)]);
        return PhraseOf(key, Span(set).ToString(), [.. days.Select(one => (one.Word, Measure.OfDate(one.Day!.Value)))]);
    }

    private static Said Span(RuleSet set) => (set.Head.From, set.Head.Until) switch
    {
        ({ } from, { } until) => (Said)$"from {Day(from)} until {Day(until)}",
        ({ } from, null) => $"from {Day(from)}",
        (null, { } until) => $"until {Day(until)}",
        _ => "without dates",
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
