using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Catalogue;
using FoamRules.Rules.Engine;

namespace FoamRules.Service;

/// <summary>What the rule sets of a report say of its requirements, for its SARIF log.</summary>
public static class SarifRules
{
    /// <summary>Opens the rule sets of a report.</summary>
    /// <param name="engine">The engine that judged.</param>
    /// <param name="report">The report.</param>
    public static Func<string, SarifRule?> Of(CheckEngine engine, Report report)
    {
        var book = new RuleCatalogue(engine).Book([.. report.RuleSets.Select(set => set.Id)], out _)?.In(report.Language);
        return id => book is null || RuleCatalogue.Requirement(book, id, report.Units) is not { } told ? null
            : new SarifRule(told.MustHold, told.Caution, [.. told.Sources.Concat(told.Limits.Select(limit => limit.Source)).Distinct()]);
    }
}
