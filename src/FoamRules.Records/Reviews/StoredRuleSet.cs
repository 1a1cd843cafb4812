using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using FoamRules.RuleSets;

namespace FoamRules.Records.Reviews;

/// <summary>Rule sets as they are kept.</summary>
internal static class StoredRuleSet
{
    /// <summary>The files; their digest is computed from them, not taken from the row.</summary>
    public static RuleSetFiles Files(RuleSetRow row)
    {
        var text = RuleSetText.Parser.ParseFrom(row.Text);
        return new RuleSetFiles(text.Id, [.. text.Files.Select(file => new RuleSets.RuleSetFile(file.Name, file.Text))]);
    }
}
