using System.Collections.Immutable;
using FoamRules.Contracts.V1;
using FoamRules.Pages.Site;
using Google.Protobuf;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>Facts that are asked together.</summary>
/// <param name="Heading">What they are about, such as an area; empty: nothing in particular.</param>
/// <param name="Facts">The facts.</param>
public sealed record FactGroup(string Heading, ImmutableArray<Fact> Facts);

/// <summary>One step of a form: one thing at a time.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Groups">Its groups.</param>
public sealed record FactStep(string Name, ImmutableArray<FactGroup> Groups);

/// <summary>A row of a list in the plan. It counts where one of its key facts is given.</summary>
/// <param name="List">The path of the list.</param>
/// <param name="Path">The row's own path.</param>
/// <param name="Begin">What the row says besides its facts.</param>
/// <param name="Keys">The paths of the facts of which one makes it count; none: it counts always.</param>
public sealed record FactRow(string List, string Path, IMessage Begin, params ImmutableArray<string> Keys);

/// <summary>What a form asks of a plan, and the plan with what was answered.</summary>
/// <param name="plan">The plan that the form begins with.</param>
/// <param name="units">The units where the plan names none.</param>
public sealed class FactSheet(Plan plan, DisplayUnits units)
{
    private readonly List<FactStep> _steps = [];
    private readonly List<FactRow> _rows = [];
    private readonly Dictionary<string, string> _formPaths = new(StringComparer.Ordinal);

    /// <summary>The plan that the form begins with.</summary>
    public Plan Plan => plan;

    /// <summary>The steps.</summary>
    public IReadOnlyList<FactStep> Steps => _steps;

    /// <summary>All facts.</summary>
    public IEnumerable<Fact> Facts => _steps.SelectMany(step => step.Groups).SelectMany(group => group.Facts);

    /// <summary>Adds a step; one without facts is left out.</summary>
    public void Step(string name, params IEnumerable<FactGroup> groups)
    {
        var asked = groups.Where(group => group.Facts.Length > 0).ToImmutableArray();
        if (asked.Length > 0)
        {
            _steps.Add(new FactStep(name, asked));
        }
    }

    /// <summary>Facts of the plan by their paths below a part of it.</summary>
    /// <param name="prefix">The part's path; empty: the plan.</param>
    /// <param name="part">The part.</param>
    /// <param name="paths">The paths below it.</param>
    public IEnumerable<Fact> Below(string prefix, IMessage part, params IEnumerable<string> paths) => paths.Select(path =>
    {
        var at = path.LastIndexOf('.');
        var owner = at < 0 ? part : PlanPath.Part(part, path[..at]) ?? PlanPath.EmptyPart(part.Descriptor, path[..at]);
        return Fact.At(prefix.Length == 0 ? path : $"{prefix}.{path}", owner, path[(at + 1)..], units, plan.TimeZone);
    });

    /// <summary>Adds a row of a list, and tells its facts.</summary>
    /// <param name="row">The row.</param>
    /// <param name="fields">Its fields that are asked.</param>
    public IEnumerable<Fact> Row(FactRow row, params IEnumerable<string> fields)
    {
        _rows.Add(row);
        return Below(row.Path, row.Begin, fields).ToList();
    }

    /// <summary>The plan with what was answered. What is left empty is not known, whatever the plan said before.</summary>
    /// <param name="posted">What was sent, by the input's name.</param>
    /// <param name="words">The words of the page.</param>
    /// <param name="violations">What cannot be read, by the path of the fact.</param>
    public Plan Answered(Func<string, string> posted, PageWords words, out List<Violation> violations)
    {
        var result = plan.Clone();
        var wrong = new List<Violation>();
        var ofRows = Facts.ToLookup(fact => _rows.FindLast(row => fact.Path.StartsWith(row.Path + ".", StringComparison.Ordinal)));
        foreach (var list in _rows.GroupBy(row => row.List))
        {
            var counted = list.Where(row => row.Keys.IsEmpty || row.Keys.Any(key => posted(key).Trim().Length > 0)).ToList();
            // A list of none is an answer of its own; a part that nobody speaks of is not made for it.
            if (counted.Count == 0 && PlanPath.Part(plan, PlanPath.Above(list.Key)) is null)
            {
                continue;
            }

            var target = PlanPath.List(result, list.Key);
            target.Clear();
            foreach (var row in counted)
            {
                var entry = PlanPath.Copy(row.Begin);
                _formPaths[$"{list.Key}[{target.Count}]"] = row.Path;
                foreach (var fact in ofRows[row])
                {
                    FactText.Set(entry, fact.Path[(row.Path.Length + 1)..], fact, posted(fact.Path), posted(fact.UnitName), plan.TimeZone, words, wrong);
                }

                target.Add(entry);
            }
        }

        foreach (var fact in ofRows[null])
        {
            FactText.Set(result, fact.Path, fact, posted(fact.Path), posted(fact.UnitName), plan.TimeZone, words, wrong);
        }

        violations = wrong;
        return result;
    }

    /// <summary>The fact that a violation of the resulting plan is about; null: none of this form.</summary>
    public Fact? FactOf(Violation violation)
    {
        var path = violation.Path;
        var row = _formPaths.Keys.Where(key => path.StartsWith(key + ".", StringComparison.Ordinal)).MaxBy(key => key.Length);
        var here = row is null ? path : _formPaths[row] + path[row.Length..];
        return Facts.FirstOrDefault(fact => fact.Path == path)
            ?? Facts.Where(fact => here == fact.Path || here.StartsWith(fact.Path + ".", StringComparison.Ordinal) || here.StartsWith(fact.Path + "[", StringComparison.Ordinal)).MaxBy(fact => fact.Path.Length);
    }
}
