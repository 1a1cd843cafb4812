using System.Collections.Immutable;
using System.Text;
using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Judging;

/// <summary>Turns an assessment into what the report says of it: severity by stage, tier and source, and the rule set's words.</summary>
internal sealed class FindingWriter(Wording wording)
{
    private const string Besides = "found-besides";

    private readonly RuleBook _book = wording.Book;

    /// <summary>What the report says of an assessment; the finding is null where the reader has nothing to do.</summary>
    public (Judgement Judgement, Finding? Finding) Write(Assessment assessment)
    {
        // The requirement was compiled once, in English; its words are those of the report's language.
        var spec = _book.Requirements[assessment.Requirement.Spec.Id];
        if (assessment.Verdict is not { } verdict)
        {
            return Faulted(assessment, spec, assessment.Fault!);
        }

        try
        {
            return Judged(assessment, spec, verdict);
        }
        catch (KeyNotFoundException missingText)
        {
            return Faulted(assessment, spec, missingText.Message);
        }
    }

    private (Judgement, Finding?) Judged(Assessment assessment, RequirementSpec spec, Verdict verdict)
    {
        // Severities and sources are the requirement's own; only words have a language.
        var own = assessment.Requirement.Spec;
        var uncapped = UncappedSeverity(assessment, own, verdict);
        // Most is met, and nobody asks then by which source.
        var sources = uncapped is null ? [] : SourcesOf(own, verdict);
        if (uncapped is not null && sources.All(source => source.IsWeak))
        {
            sources = [.. sources.Concat(BrokenBesides(verdict)).DistinctBy(source => source.Citation)];
        }

        var (severity, capped) = Capped(uncapped, own, sources);
        var evidence = verdict.Evidence.Select(field => new Evidence(field.Path, field.Value)).ToImmutableArray();
        var limit = verdict.Limit is { } used ? LimitUsed(used) : null;
        var judgement = new Judgement
        {
            Requirement = spec.Id,
            Subject = assessment.Bearer.Subject,
            Outcome = verdict.Outcome,
            Severity = severity,
            Reason = verdict.Outcome == Outcome.NotApplicable ? ReasonText(spec, verdict.Says) : "",
            Value = Plain(verdict.Value),
            Limit = limit,
            Margin = verdict.Margin,
            Evidence = evidence,
        };
        if (severity is null)
        {
            return (judgement, null);
        }

        var missing = verdict.MissingFields.Select(field => field.Path).Distinct(StringComparer.Ordinal).ToImmutableArray();
        var finding = new Finding
        {
            Requirement = spec.Id,
            Subject = assessment.Bearer.Subject,
            Outcome = verdict.Outcome,
            Severity = severity.Value,
            MustHold = spec.Must,
            Found = Found(spec, verdict, missing),
            Value = Plain(verdict.Value),
            Limit = limit,
            Margin = verdict.Margin,
            Evidence = evidence,
            Missing = missing,
            Steps = verdict.Steps,
            Sources = [.. sources.Select(source => new SourceUsed(source.Named is { } named ? wording.Say(named) : source.Citation, source.Status, source.Layer))],
            Remedy = string.Join(' ', WithBesides(verdict).Select(broken => Fill(RemedyOf(spec, broken), spec, broken, missing)).Where(text => text.Length > 0).Distinct()),
            Caution = Fill(spec.Caution, spec, verdict, missing),
            ReleaseRoles = severity == Severity.HoldPoint ? own.Release : [],
            CappedBecause = capped,
            Hazard = HazardTexts.Of(_book, assessment.Requirement.Answers).Name,
            SeverityLayer = SeverityLayerOf(assessment, own, verdict),
        };
        return (judgement, finding);
    }

    // A limit that is worked out from another, such as the factor that an exposure limit asks for, has others of another kind below it.
    private static LimitUsed LimitUsed(Limit limit) => new(
        limit.Name, Plain(limit.Value)!, limit.Direction, limit.Layer,
        [.. limit.Below.Where(limit.IsComparableWith).Select(other => new LimitBelow(other.Layer, other.Value, other.Direction))],
        limit.IsWorkedOut);

    // What programs read stays the same in every language: the plain English word.
    private static Measure? Plain(Measure? measure) => measure?.Phrase is { } phrase ? Measure.OfText(phrase.English) : measure;

    private static string SeverityLayerOf(Assessment assessment, RequirementSpec spec, Verdict verdict)
    {
        var layers = verdict.Outcome == Outcome.NotMet ? spec.NotMetLayers : spec.MissingLayers;
        return verdict.Tier is { } tier && (verdict.Outcome == Outcome.NotMet || spec.Tiers[tier].Missing is not null)
            ? spec.Tiers[tier].Layers[0]
            : layers.GetValueOrDefault(assessment.Bearer.Stage, "");
    }

    private (Judgement, Finding?) Faulted(Assessment assessment, RequirementSpec spec, string fault)
    {
        var finding = new Finding
        {
            Requirement = spec.Id,
            Subject = assessment.Bearer.Subject,
            Outcome = Outcome.Faulted,
            Severity = Severity.HoldPoint,
            MustHold = spec.Must,
            Found = Text("faulted").Replace("{fault}", fault, StringComparison.Ordinal),
            Sources = [.. spec.Sources.Select(source => new SourceUsed(source.Citation, source.Status, source.Layer))],
            Remedy = Text("faulted-remedy"),
            Caution = spec.Caution,
            ReleaseRoles = spec.Release,
            Hazard = HazardTexts.Of(_book, assessment.Requirement.Answers).Name,
        };
        var judgement = new Judgement
        {
            Requirement = spec.Id,
            Subject = assessment.Bearer.Subject,
            Outcome = Outcome.Faulted,
            Severity = Severity.HoldPoint,
            Reason = fault,
        };
        return (judgement, finding);
    }

    private static Severity? UncappedSeverity(Assessment assessment, RequirementSpec spec, Verdict verdict) => verdict.Outcome switch
    {
        Outcome.NotMet => (verdict.Tier is { } tier ? spec.Tiers[tier].NotMet : spec.NotMet).At(assessment.Bearer.Stage),
        Outcome.Undetermined => ((verdict.Tier is { } tier ? spec.Tiers[tier].Missing : null) ?? spec.Missing).At(assessment.Bearer.Stage),
        _ => null,
    };

    // Rule 1 of the requirements: while every source behind a limit is practice or memory, a finding bites no harder than a
    // hold point, unless the row is flagged as imminent danger.
    private (Severity? Severity, string Capped) Capped(Severity? severity, RequirementSpec spec, ImmutableArray<Source> sources) =>
        severity != Severity.StopWork || spec.ImminentSetBy is not null || sources.Any(source => !source.IsWeak)
            ? (severity, "")
            : (Severity.HoldPoint, Text("capped"));

    // A stricter limit of a weak source must not weaken the break of what another layer has read: the looser limits that the value
    // breaks as well stand behind it too. Where it cannot be told, as for words, they count as broken.
    private static IEnumerable<Source> BrokenBesides(Verdict verdict) =>
        verdict.Limit is { } limit ? limit.Below.Where(other => !other.IsOverruled && other.IsKeptBy(verdict.Value) is not true).Select(other => other.Source).Where(source => !source.IsWeak) : [];

    private static ImmutableArray<Source> SourcesOf(RequirementSpec spec, Verdict verdict)
    {
        var limits = (verdict.Limit is { } limit ? [limit] : Enumerable.Empty<Limit>()).Concat(verdict.AlsoRestsOn).Select(used => used.Source).ToList();
        var tier = verdict.Tier is { } name ? spec.Tiers[name].Sources : [];
        // The limit that decided speaks for itself. Where none did, as when an input is missing, everything that stands behind
        // the requirement does.
        var behind = limits.Count + tier.Length > 0 ? limits.Concat(tier)
            : spec.Sources.Length > 0 ? spec.Sources
            : spec.Limits.Values.Select(limit => limit.Source);
        return [.. behind.DistinctBy(source => source.Citation)];
    }

    private string SayingOf(RequirementSpec spec, Verdict verdict) =>
        spec.Says.GetValueOrDefault(verdict.Says)
        ?? _book.Texts.GetValueOrDefault(verdict.Says)
        ?? throw new KeyNotFoundException($"the rule sets have no words for {spec.Id}: {verdict.Says}");

    // What is broken besides is said in the same finding, or whoever puts it right would meet it only at the next check.
    private string Found(RequirementSpec spec, Verdict verdict, ImmutableArray<string> missing) => WithBesides(verdict)
        .Select(broken => Fill(SayingOf(spec, broken), spec, broken, missing))
        .Distinct()
        .Aggregate((said, next) => Text(Besides).Replace("{found}", said, StringComparison.Ordinal).Replace("{besides}", next, StringComparison.Ordinal));

    // A report that is made again by rule sets of before this word says what it said then.
    private IEnumerable<Verdict> WithBesides(Verdict verdict) => _book.Texts.ContainsKey(Besides) ? verdict.Besides.Prepend(verdict) : [verdict];

    private string RemedyOf(RequirementSpec spec, Verdict verdict) =>
        spec.Remedies.GetValueOrDefault(verdict.Says) ?? _book.Texts.GetValueOrDefault($"{verdict.Says}-remedy") ?? spec.Remedies.GetValueOrDefault("", "");

    private string ReasonText(RequirementSpec spec, string key) => ReasonText(_book, spec, key);

    /// <summary>The words for a reason why a requirement does not apply.</summary>
    public static string ReasonText(RuleBook book, RequirementSpec spec, string key) =>
        spec.NotApplicable.GetValueOrDefault(key) ?? book.Texts.GetValueOrDefault(key) ?? throw new KeyNotFoundException($"the rule sets have no words for {spec.Id}: {key}");

    private string Text(string key) => _book.Texts.GetValueOrDefault(key) ?? throw new KeyNotFoundException($"texts.yaml has no {key}");

    private string Fill(string template, RequirementSpec spec, Verdict verdict, ImmutableArray<string> missing)
    {
        if (!template.Contains('{', StringComparison.Ordinal))
        {
            return template;
        }

        var filled = new StringBuilder();
        var rest = template.AsSpan();
        while (rest.IndexOf('{') is var open and >= 0)
        {
            var close = rest[open..].IndexOf('}') + open;
            filled.Append(rest[..open]).Append(Word(rest[(open + 1)..close].ToString(), spec, verdict, missing));
            rest = rest[(close + 1)..];
        }

        return filled.Append(rest).ToString();
    }

    private string Word(string name, RequirementSpec spec, Verdict verdict, ImmutableArray<string> missing)
    {
        var measure = name switch
        {
            "value" => verdict.Value,
            "limit" => verdict.Limit is { } limit ? Spoken.Of(limit) : null,
            "margin" => verdict.Margin,
            "missing" => Measure.OfText(string.Join(", ", missing)),
            _ => verdict.Words.GetValueOrDefault(name),
        };
        return measure is null ? throw new KeyNotFoundException($"{verdict.Says} has no value for {{{name}}}") : wording.Show(measure, spec);
    }
}
