using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>Puts a report together from what the rules found. The order of facts and rules changes nothing in it.</summary>
internal sealed class ReportBuilder(RuleNetwork network, JobFacts job, Wording wording, ImmutableArray<Phrase> ruleSetNotes)
{
    // With the commit where the build knows it: a difference after a change of the code must be able to name both.
    public static readonly string Version =
        typeof(ReportBuilder).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;

    private readonly RuleBook _book = wording.Book;

    public Report Build(IReadOnlyList<IHazard<Bearer>> hazards, IReadOnlyList<Assessment> assessments, string planDigest)
    {
        var asked = assessments.Select(assessment => (assessment.Requirement, assessment.Bearer)).ToHashSet();
        var overlooked = Overlooked(hazards, asked).ToList();
        assessments = [.. assessments, .. overlooked];
        asked.UnionWith(overlooked.Select(assessment => (assessment.Requirement, assessment.Bearer)));
        var writer = new FindingWriter(wording);
        var written = assessments.Select(writer.Write).ToList();
        var judgements = written.Select(pair => pair.Judgement).Concat(NotAsked(hazards, asked))
            .OrderBy(judgement => judgement.Requirement, StringComparer.Ordinal)
            .ThenBy(judgement => judgement.Subject.Id, StringComparer.Ordinal).ThenBy(judgement => judgement.Subject.Kind)
            .ToImmutableArray();
        var findings = written.Select(pair => pair.Finding).OfType<Finding>()
            .OrderByDescending(finding => finding.Severity)
            .ThenBy(finding => finding.Subject.Id, StringComparer.Ordinal).ThenBy(finding => finding.Subject.Kind)
            .ThenBy(finding => finding.Requirement, StringComparer.Ordinal)
            .ToImmutableArray();
        var counts = Count(judgements);
        var disposition = DispositionOf(findings);
        return new Report
        {
            PlanName = job.Plan.Name,
            Stage = job.Stage,
            Disposition = disposition,
            Summary = Summary(disposition, counts, judgements),
            Counts = counts,
            Findings = findings,
            Judgements = judgements,
            Hazards = HazardsOf(hazards, judgements),
            Numbers = new TodaysNumbers(network.Numbers, job, wording).All(),
            Schedule = new AreaClock(job, network, wording).Entries(),
            Unknowns = new UnknownInputs(_book).Of(assessments),
            PriceLines = new PriceList(network, job, wording, hazards, assessments).Lines(),
            TopicsNotJudged = [.. _book.Layers.SelectMany(layer => layer.Head.TopicsNotJudged).Distinct()],
            AskAgainWhen = job.Stage == Stage.PreStart ? Lines("ask-again-when") : [],
            Cautions = Lines("cautions"),
            RuleSets = [.. _book.Layers.Select(Used)],
            Relaxations = _book.Relaxations,
            RuleSetNotes = [.. ruleSetNotes.Select(note => wording.Say(note))],
            JudgedAt = job.Plan.JudgedAt,
            PlanDigest = planDigest,
            EngineVersion = Version,
            Complete = counts.Faulted == 0,
            ResponsiblePerson = job.Plan.ResponsiblePerson ?? "",
            Units = wording.Units,
            Language = _book.Language,
            LanguageNotes = [.. LanguageNotes()],
            DecimalMark = wording.Style.DecimalMark,
        };
    }

    // A hazard that is there and a requirement that applies, but was not asked: the rule engine has failed, and that must not
    // look like "does not apply".
    private IEnumerable<Assessment> Overlooked(IReadOnlyList<IHazard<Bearer>> hazards, HashSet<(IRequirement, Bearer)> asked)
    {
        var answering = network.Requirements.ToLookup(requirement => requirement.Answers);
        foreach (var hazard in hazards)
        {
            foreach (var requirement in answering[hazard.Kind])
            {
                if (requirement.Covers(hazard.Bearer) && !asked.Contains((requirement, hazard.Bearer)) && requirement.ReasonNotAsked(hazard.Bearer) is null)
                {
                    yield return new Assessment(requirement, hazard.Bearer, null, "it applies, but the rule engine did not ask it");
                }
            }
        }
    }

    // Every requirement on every bearer that it covers and that no hazard made it be asked of: with the reason.
    private IEnumerable<Judgement> NotAsked(IReadOnlyList<IHazard<Bearer>> hazards, HashSet<(IRequirement, Bearer)> asked)
    {
        var arisen = hazards.Select(hazard => (hazard.Kind, hazard.Bearer)).ToHashSet();
        foreach (var requirement in network.Requirements)
        {
            var covered = job.All.Where(requirement.Covers).ToList();
            if (covered.Count == 0)
            {
                yield return NotApplicable(requirement, job.Subject, _book.Texts["no-subject"]);
            }

            foreach (var bearer in covered.Where(bearer => !asked.Contains((requirement, bearer))))
            {
                var reason = arisen.Contains((requirement.Answers, bearer))
                    ? FindingWriter.ReasonText(_book, _book.Requirements[requirement.Spec.Id], requirement.ReasonNotAsked(bearer)!)
                    : HazardTexts.Of(_book, requirement.Answers).Absent;
                yield return NotApplicable(requirement, bearer.Subject, reason);
            }
        }
    }

    private static Judgement NotApplicable(IRequirement requirement, Subject subject, string reason) =>
        new() { Requirement = requirement.Spec.Id, Subject = subject, Outcome = Outcome.NotApplicable, Reason = reason };

    private Counts Count(ImmutableArray<Judgement> judgements)
    {
        var judged = judgements.Where(judgement => judgement.Outcome != Outcome.NotApplicable).Select(judgement => judgement.Requirement).Distinct().Count();
        return new Counts(network.Requirements.Length, judged, Of(Outcome.Met), Of(Outcome.NotMet), Of(Outcome.Undetermined), Of(Outcome.NotApplicable), Of(Outcome.Faulted));

        int Of(Outcome outcome) => judgements.Count(judgement => judgement.Outcome == outcome);
    }

    private static Disposition DispositionOf(ImmutableArray<Finding> findings)
    {
        var worst = findings.IsEmpty ? 0 : findings.Max(finding => finding.Severity);
        return worst switch
        {
            Severity.StopWork => Disposition.Stop,
            Severity.HoldPoint => Disposition.Hold,
            Severity.Caution => Disposition.ProceedWithCautions,
            _ => Disposition.Proceed,
        };
    }

    private string Summary(Disposition disposition, Counts counts, ImmutableArray<Judgement> judgements)
    {
        var key = disposition switch { Disposition.Stop => "summary-stop", Disposition.Hold => "summary-hold", _ => "summary-proceed" };
        var undetermined = judgements.Where(judgement => judgement.Outcome is Outcome.Undetermined or Outcome.Faulted)
            .Select(judgement => judgement.Requirement).Distinct().ToList();
        var open = undetermined.Count == 0
            ? _book.Texts["all-judged"]
            : _book.Texts["not-all-judged"].Replace("{count}", counts.Undetermined.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)
                .Replace("{requirements}", string.Join(", ", undetermined.Take(6)) + (undetermined.Count > 6 ? " …" : ""), StringComparison.Ordinal);
        return $"{_book.Texts[key].Replace("{at}", JudgedAt, StringComparison.Ordinal)} {open}";
    }

    private string JudgedAt => job.Plan.JudgedAt is { } at ? wording.Show(at, job.Plan.TimeZone) : wording.Text("time-unknown");

    // A reader must know what stands behind the words: nobody of the trade has read them, some are missing, some are never translated.
    private IEnumerable<string> LanguageNotes()
    {
        if (_book.Language == Translation.English)
        {
            yield break;
        }

        if (!_book.Translations.Any() || _book.Translations.Any(translation => translation.ReviewedBy.Length == 0))
        {
            yield return wording.Text("language-not-reviewed");
        }

        if (_book.Untranslated is var count and > 0)
        {
            yield return wording.Text("language-gaps", ("count", count.ToString(CultureInfo.InvariantCulture)));
        }

        yield return wording.Text("language-in-english");
    }

    private ImmutableArray<Model.Hazard> HazardsOf(IReadOnlyList<IHazard<Bearer>> hazards, ImmutableArray<Judgement> judgements)
    {
        var asks = network.Requirements.ToDictionary(requirement => requirement.Spec.Id, requirement => requirement.Answers);
        var asked = judgements.Where(judgement => judgement.Outcome != Outcome.NotApplicable)
            .ToLookup(judgement => (judgement.Subject, asks[judgement.Requirement]), judgement => judgement.Requirement);
        return [.. hazards
            .OrderBy(hazard => hazard.Bearer.Subject.Kind).ThenBy(hazard => hazard.Bearer.Subject.Id, StringComparer.Ordinal).ThenBy(hazard => hazard.Kind)
            .Select(hazard =>
            {
                var texts = HazardTexts.Of(_book, hazard.Kind);
                return new Model.Hazard(texts.Name, hazard.Bearer.Subject, texts.Because, [.. asked[(hazard.Bearer.Subject, hazard.Kind)]]);
            })];
    }

    /// <summary>A rule set as reports name it.</summary>
    public static RuleSetUsed Used(RuleSet layer)
    {
        var head = layer.Head;
        return new RuleSetUsed(layer.Id, head.Version, layer.Digest, head.Status, Day(head.From), Day(head.Until), head.Countries, head.Region ?? "", head.Title);

        static string Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
    }

    private ImmutableArray<string> Lines(string key) =>
        [.. _book.Texts[key].Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)];
}
