namespace FoamRules.RuleSets.Schemas;

/// <summary>
/// The names that the reader of rule sets knows in each kind of mapping. Asked of the reader itself: it is given one unknown name in
/// each, and answers with those that are allowed. So no second list can go stale.
/// </summary>
internal static class KnownNames
{
    private const string Unknown = "no-such-name";

    private static readonly RuleSetFiles Probe = new("probe",
    [
        new RuleSetFile("hazards.yaml", $"one: {{ name: n, because: b, absent: a, {Unknown}: 1 }}\n"),
        new RuleSetFile("languages/es/language.yaml", $"language: es\nreviewed-by: nobody\n{Unknown}: 1\n"),
        new RuleSetFile("languages/es/hazards.yaml", $"one: {{ {Unknown}: 1 }}\n"),
        new RuleSetFile("languages/es/price.yaml", $"line: {{ {Unknown}: 1 }}\n"),
        new RuleSetFile("languages/es/topic.yaml", $"topic.one: {{ {Unknown}: 1 }}\n"),
        new RuleSetFile("price.yaml", $"line: {{ what: w, asked-by: topic.one, quantity: once, how: h, {Unknown}: 1 }}\n"),
        new RuleSetFile("rule-set.yaml", $"title: t\nversion: v\nlevel: general-practice\neffective: {{ {Unknown}: 1 }}\njurisdiction: {{ country: US, {Unknown}: 1 }}\n{Unknown}: 1\n"),
        new RuleSetFile("sources.yaml", $"one: {{ cite: c, status: read, {Unknown}: 1 }}\n"),
        new RuleSetFile("topic.yaml", $$"""
            topic.one:
              {{Unknown}}: 1
              not-met: { {{Unknown}}: 1 }
              tiers: { one: { not-met: { plan: hold }, {{Unknown}}: 1 } }
              limits: { one: { is: { count: 1 }, source: one, {{Unknown}}: 1 } }

            """),
    ]);

    private static readonly Lazy<Dictionary<string, string[]>> Answers = new(() => RuleSetReader.Read(Probe).Violations
        .Where(violation => violation.Path.EndsWith($".{Unknown}", StringComparison.Ordinal))
        .ToDictionary(violation => violation.File!.Contains("/languages/", StringComparison.Ordinal) ? $"languages/{violation.Path[..^(Unknown.Length + 1)]}" : violation.Path[..^(Unknown.Length + 1)], violation => violation.Allowed.Split(", ")));

    /// <summary>In <c>rule-set.yaml</c>.</summary>
    public static IReadOnlyList<string> Head => Answers.Value["rule-set"];

    /// <summary>Under <c>effective</c> there.</summary>
    public static IReadOnlyList<string> Effective => Answers.Value["effective"];

    /// <summary>Under <c>jurisdiction</c> there.</summary>
    public static IReadOnlyList<string> Jurisdiction => Answers.Value["jurisdiction"];

    /// <summary>In a source.</summary>
    public static IReadOnlyList<string> Source => Answers.Value["sources.one"];

    /// <summary>In a hazard.</summary>
    public static IReadOnlyList<string> Hazard => Answers.Value["one"];

    /// <summary>In a line of the price list.</summary>
    public static IReadOnlyList<string> Price => Answers.Value["line"];

    /// <summary>In a requirement.</summary>
    public static IReadOnlyList<string> Requirement => Answers.Value["topic.one"];

    /// <summary>In severities.</summary>
    public static IReadOnlyList<string> Severities => Answers.Value["topic.one.not-met"];

    /// <summary>In a tier.</summary>
    public static IReadOnlyList<string> Tier => Answers.Value["topic.one.tiers.one"];

    /// <summary>In a limit.</summary>
    public static IReadOnlyList<string> Limit => Answers.Value["topic.one.limits.one"];

    /// <summary>In <c>language.yaml</c> of a translation.</summary>
    public static IReadOnlyList<string> Language => Answers.Value["languages/language"];

    /// <summary>In a translated hazard.</summary>
    public static IReadOnlyList<string> TranslatedHazard => Answers.Value["languages/hazards.one"];

    /// <summary>In a translated line of the price list.</summary>
    public static IReadOnlyList<string> TranslatedPrice => Answers.Value["languages/price.line"];

    /// <summary>In a translated requirement.</summary>
    public static IReadOnlyList<string> TranslatedRequirement => Answers.Value["languages/topic.one"];
}
