using System.Collections.Immutable;
using System.Text.Json.Nodes;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets.Schemas;

/// <summary>
/// The JSON Schemas of a rule set's files, so that an editor completes and checks them while they are written. The names are the
/// reader's own; what stands under each is said here. What needs the other files, such as whether a source is there or a limit
/// is tighter, is for <c>foamrules rule-set check</c>.
/// </summary>
public static class RuleSetSchema
{
    private const string Kinds = "at-most at-least is any-of";

    /// <summary>The schemas by name: <c>rule-set</c> for the head, <c>rule-set-topic</c> for a topic's file, and those of the special files.</summary>
    public static ImmutableSortedDictionary<string, Func<JsonObject>> All { get; } = new Dictionary<string, Func<JsonObject>>
    {
        ["rule-set"] = () => File("The head of a rule set: rule-set.yaml", Mapping(KnownNames.Head, HeadField, "title", "version", "level")),
        ["rule-set-topic"] = () => File("A topic of a rule set, such as vent.yaml", Topic()),
        ["rule-set-sources"] = () => File("The sources that several topics use: sources.yaml", MapOf(Ref("source"))),
        ["rule-set-hazards"] = () => File("What can go wrong: hazards.yaml", MapOf(Mapping(KnownNames.Hazard, HazardField, "name", "because", "absent"))),
        ["rule-set-texts"] = () => File("Texts that stand on every report: texts.yaml", MapOf(Ref("text"))),
        ["rule-set-price"] = () => File("What must be in the price: price.yaml", MapOf(Mapping(KnownNames.Price, PriceField, "what", "asked-by", "quantity", "how"))),
        ["rule-set-questions"] = () => File("The question for each field that may be missing: questions.yaml", MapOf(Ref("text"))),
        ["rule-set-language"] = () => File("What a translation says of itself: languages/<language>/language.yaml", Mapping(KnownNames.Language, LanguageField, "language")),
        ["rule-set-language-topic"] = () => File("The words of a topic in another language, such as languages/es/vent.yaml", Translated(Mapping(KnownNames.TranslatedRequirement, RequirementField), @"^[^.]+\..+$")),
        ["rule-set-language-hazards"] = () => File("What can go wrong, in another language: languages/<language>/hazards.yaml", MapOf(Mapping(KnownNames.TranslatedHazard, HazardField))),
        ["rule-set-language-texts"] = () => File("Texts that stand on every report, in another language: languages/<language>/texts.yaml", MapOf(Ref("text"))),
        ["rule-set-language-price"] = () => File("The words of the price list in another language: languages/<language>/price.yaml", MapOf(Mapping(KnownNames.TranslatedPrice, PriceField))),
        ["rule-set-language-questions"] = () => File("The questions in another language: languages/<language>/questions.yaml", MapOf(Ref("text"))),
        ["rule-set-parameters"] = () => File("Values that several requirements share: parameters.yaml", MapOf(Ref("limit-or-group"))),
    }.ToImmutableSortedDictionary(StringComparer.Ordinal);

    private static JsonObject File(string title, JsonObject schema)
    {
        schema.Insert(0, "$schema", "http://json-schema.org/draft-07/schema#");
        schema.Insert(1, "title", title);
        schema["definitions"] = Used(schema);
        return schema;
    }

    // Of all definitions those that the schema refers to, and those that they refer to.
    private static JsonObject Used(JsonObject schema)
    {
        var all = Definitions();
        var used = new JsonObject();
        var waiting = new Queue<JsonNode>([schema]);
        while (waiting.TryDequeue(out var node))
        {
            foreach (var name in all.Select(pair => pair.Key).Where(name => !used.ContainsKey(name) && node.ToJsonString().Contains(Reference(name), StringComparison.Ordinal)))
            {
                used[name] = all[name]!.DeepClone();
                waiting.Enqueue(used[name]!);
            }
        }

        return used;
    }

    private static JsonObject Topic() => new()
    {
        ["type"] = "object",
        ["properties"] = new JsonObject { ["sources"] = MapOf(Ref("source")) },
        ["patternProperties"] = new JsonObject { [@"^[^.]+\..+$"] = Ref("requirement") },
        ["additionalProperties"] = false,
    };

    private static JsonObject Translated(JsonObject entry, string ids) => new()
    {
        ["type"] = "object",
        ["patternProperties"] = new JsonObject { [ids] = entry },
        ["additionalProperties"] = false,
    };

    private static JsonObject Definitions() => new()
    {
        ["text"] = new JsonObject { ["type"] = new JsonArray("string", "number", "boolean") },
        ["texts"] = AnyOf(Ref("text"), new JsonObject { ["type"] = "array", ["items"] = Ref("text") }),
        ["text-or-by-key"] = AnyOf(Ref("text"), MapOf(Ref("text"))),
        ["source"] = Mapping(KnownNames.Source, SourceField, "cite", "status"),
        ["severities"] = Mapping(KnownNames.Severities, _ => Words(Enum.GetValues<Severity>().Select(RuleSetWords.Of))),
        ["tier"] = Mapping(KnownNames.Tier, TierField),
        ["requirement"] = Mapping(KnownNames.Requirement, RequirementField),
        ["limit-or-group"] = AnyOf(Ref("limit"), Ref("group")),
        ["limit"] = Limit(),
        ["group"] = Group(),
        ["value"] = Value(),
    };

    private static JsonObject HeadField(string name) => name switch
    {
        "title" => Said("what people call it", Ref("text")),
        "version" => Said("its version, such as 1.0.0", Ref("text")),
        "level" => Said("where it stands among the layers; a layer may only tighten those below it", Words(Enum.GetValues<Level>().Select(RuleSetWords.Of))),
        "above" => Said("the rule set that it stands above", Ref("text")),
        "status" => Said("draft: it counts only where it is named; in-force; withdrawn: it counts nowhere", Words(Enum.GetValues<RuleSetStatus>().Select(RuleSetWords.Of))),
        "effective" => Said("the first and the last day on which it holds; either may be left out", Mapping(KnownNames.Effective, EffectiveField)),
        "jurisdiction" => Said("the place whose plans get it without asking; left out: only who names it gets it", Mapping(KnownNames.Jurisdiction, JurisdictionField, "country")),
        "adopts" => Said("rule sets that it takes over as they are, such as an edition of a building code", Ref("texts")),
        "edition-of" => Said("the document of which it is an edition, such as us-ibc", Ref("text")),
        "note" => Note(),
        "topics-not-judged" => Said("what no requirement of it judges yet", Ref("texts")),
        _ => throw Untold(name),
    };

    private static JsonObject PriceField(string name) => name switch
    {
        "what" => Said("what is to be priced", Ref("text")),
        "asked-by" => Said("the id of the requirement that asks for it", new JsonObject { ["type"] = "string", ["pattern"] = @"^[^.]+\..+$" }),
        "quantity" => Said("the quantity, by the engine's name for it; once: one wherever the requirement applies; limit: the least with which it is met", Ref("text")),
        "limit" => Said("the requirement's limit, where the quantity is limit", Ref("text")),
        "unit" => Said("what a bare number counts, such as holes", Ref("text")),
        "how" => Said("how the quantity is worked out, by the way it was", Ref("text-or-by-key")),
        _ => throw Untold(name),
    };

    private static JsonObject LanguageField(string name) => name switch
    {
        "language" => Said("the folder's language, a tag by BCP 47 such as es or fr-CA", new JsonObject { ["type"] = "string", ["pattern"] = "^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$" }),
        "reviewed-by" => Said("who of the trade has reviewed it as a speaker of the language; empty where nobody has", new JsonObject { ["type"] = new JsonArray("string", "null") }),
        "title" => Said("what people call the rule set in this language", Ref("text")),
        "decimal-mark" => Said("the mark between the whole and the parts of a number; a point where it is left out", Words([",", "."])),
        "decimal-point-in" => Said("countries, by ISO 3166-1, whose speakers write a decimal point all the same", Ref("texts")),
        "note" => Note(),
        _ => throw Untold(name),
    };

    private static JsonObject EffectiveField(string name) => name switch
    {
        "from" => Said("its first day", Date()),
        "until" => Said("its last day", Date()),
        _ => throw Untold(name),
    };

    private static JsonObject JurisdictionField(string name)
    {
        var country = new JsonObject { ["type"] = "string", ["pattern"] = "^[A-Z]{2}$" };
        return name switch
        {
            "country" => Said("one country by ISO 3166-1, such as US, or several", AnyOf(country, new JsonObject { ["type"] = "array", ["items"] = country.DeepClone(), ["minItems"] = 1 })),
            "region" => Said("the region by ISO 3166-2, such as US-WA", new JsonObject { ["type"] = "string", ["pattern"] = "^[A-Z]{2}-[A-Z0-9]{1,3}$" }),
            _ => throw Untold(name),
        };
    }

    private static JsonObject SourceField(string name) => name switch
    {
        "cite" => Said("document, edition and section", Ref("text")),
        "status" => Said("read: somebody read the text; secondary: somebody read a text that restates it; from-memory; common-practice; arithmetic",
            Words(Enum.GetValues<SourceStatus>().Select(RuleSetWords.Of))),
        "note" => Note(),
        _ => throw Untold(name),
    };

    private static JsonObject HazardField(string name) => name switch
    {
        "name" => Said("what people call it", Ref("text")),
        "because" => Said("why it is there", Ref("text")),
        "absent" => Said("why it is not there, where it is not", Ref("text")),
        _ => throw Untold(name),
    };

    private static JsonObject TierField(string name) => name switch
    {
        "not-met" => Said("severities by stage where it is not met", Ref("severities")),
        "missing" => Said("severities by stage where an input is missing", Ref("severities")),
        "sources" => Said("ids of its sources", Ref("texts")),
        "note" => Note(),
        _ => throw Untold(name),
    };

    private static JsonObject RequirementField(string name) => name switch
    {
        "must" => Said("what must hold, a sentence", Ref("text")),
        "not-met" => Said("severities by stage where it is not met; a stage left out is not judged", Ref("severities")),
        "missing" => Said("severities by stage where an input is missing", Ref("severities")),
        "release" => Said("roles that may release a hold", Ref("texts")),
        "imminent-set-by" => Said("the role that flagged it as imminent danger, so that weak sources do not lower a stop", Ref("text")),
        "sources" => Said("ids of sources of the requirement as a whole", Ref("texts")),
        "limits" => Said("its limits by name, each with its source", MapOf(Ref("limit-or-group"))),
        "limits-of" => Said("other requirements, or groups of their limits, that it is judged by too", Ref("texts")),
        "tiers" => Said("other severities for a worse or lighter break", MapOf(Ref("tier"))),
        "says" => Said("what is said where it is not met or cannot be judged, by key", Ref("text-or-by-key")),
        "not-applicable" => Said("why it does not apply, by key", Ref("text-or-by-key")),
        "remedy" => Said("what would put it right, by the key of what is said, or one for all", Ref("text-or-by-key")),
        "caution" => Said("what can hurt someone", Ref("text")),
        "example" => Said("an example", Ref("text")),
        "relaxed-by" => Said("the authority by which its severities are lower than below", Ref("text")),
        "bearer" => Said("what a declared requirement is judged on", Words(Enum.GetValues<DeclaredBearer>().Select(RuleSetWords.Of))),
        "hazard" => Said("the hazard because of which it is asked", Ref("text")),
        "applies" => Said("an expression: when it applies", Ref("text")),
        "met" => Said("an expression: when it is met", Ref("text")),
        "needs" => Said("fields without which it cannot be judged", Ref("texts")),
        "note" => Note(),
        _ => throw Untold(name),
    };

    private static JsonObject LimitField(string name) => name switch
    {
        "at-most" => Said("met on the value and below it", Ref("value")),
        "at-least" => Said("met on the value and above it", Ref("value")),
        "is" => Said("a plain parameter", Ref("value")),
        "any-of" => Said("the words that are allowed", Ref("texts")),
        "or" => Said("the value that the source prints as an alternative in another unit", Ref("value")),
        "source" => Said("the id of its source; without one it does not load", Ref("text")),
        "over-sheet" => Said("true where it stands whatever a looser data sheet allows", new JsonObject { ["type"] = "boolean" }),
        "relaxes" => Said("true where it is looser than the layers below; then with its authority", new JsonObject { ["type"] = "boolean" }),
        "authority" => Said("who allows the relaxation", Ref("text")),
        "tighter" => Said("which change of a parameter is tighter", Words(["lower", "higher"])),
        "note" => Note(),
        _ => throw Untold(name),
    };

    private static JsonObject Limit()
    {
        var schema = Mapping(KnownNames.Limit, LimitField);
        schema["oneOf"] = new JsonArray([.. Kinds.Split(' ').Select(Having)]);
        // A relaxation names its authority.
        schema["anyOf"] = new JsonArray(Without("relaxes"), Having("authority"));
        return schema;
    }

    private static JsonObject Group() => new()
    {
        ["type"] = "object",
        ["properties"] = new JsonObject
        {
            ["source"] = Said("the id of the source of all its limits that name none", Ref("text")),
            ["allows"] = Said("each: every limit of it is an alternative; together: all of them are the conditions of one exception; left out where it restricts", Words(["each", "together"])),
        },
        ["additionalProperties"] = Ref("limit-or-group"),
        ["allOf"] = new JsonArray([.. Kinds.Split(' ').Select(Without)]),
    };

    private static JsonObject Value()
    {
        var units = LimitReader.Units.Keys.Order(StringComparer.Ordinal).Select(unit => KeyValuePair.Create(unit, (JsonNode?)new JsonObject { ["type"] = "number" }))
            .Append(KeyValuePair.Create("count", (JsonNode?)new JsonObject { ["type"] = "integer" }))
            .Append(KeyValuePair.Create("date", (JsonNode?)Date()));
        return new JsonObject
        {
            ["description"] = "one value under the name of its unit, such as { inches: 2 }",
            ["type"] = "object",
            ["properties"] = new JsonObject(units),
            ["additionalProperties"] = false,
            ["minProperties"] = 1,
            ["maxProperties"] = 1,
        };
    }

    private static JsonObject Mapping(IEnumerable<string> names, Func<string, JsonObject> field, params string[] required)
    {
        var schema = new JsonObject
        {
            ["type"] = "object",
            ["properties"] = new JsonObject(names.Select(name => KeyValuePair.Create(name, (JsonNode?)field(name)))),
            ["additionalProperties"] = false,
        };
        if (required.Length > 0)
        {
            schema["required"] = new JsonArray([.. required.Select(name => JsonValue.Create(name))]);
        }

        return schema;
    }

    private static JsonObject Date() => new() { ["type"] = "string", ["pattern"] = @"^\d{4}-\d{2}-\d{2}$" };

    private static JsonObject MapOf(JsonObject value) => new() { ["type"] = "object", ["additionalProperties"] = value };

    private static JsonObject AnyOf(params JsonObject[] choices) => new() { ["anyOf"] = new JsonArray([.. choices]) };

    private static JsonObject Ref(string name) => new() { ["$ref"] = $"#/definitions/{name}" };

    private static string Reference(string name) => Ref(name).ToJsonString();

    // Draft 7 takes no word beside a $ref, so it stands in an allOf.
    private static JsonObject Said(string description, JsonObject schema)
    {
        if (schema.ContainsKey("$ref"))
        {
            schema = new JsonObject { ["allOf"] = new JsonArray(schema) };
        }

        schema.Insert(0, "description", description);
        return schema;
    }

    private static JsonObject Note() => Said("a note for whoever reads the file; shown nowhere", Ref("text"));

    private static JsonObject Words(IEnumerable<string> words) => new() { ["enum"] = new JsonArray([.. words.Select(word => JsonValue.Create(word))]) };

    private static JsonObject Having(string name) => new() { ["required"] = new JsonArray(name) };

    private static JsonObject Without(string name) => new() { ["not"] = Having(name) };

    private static InvalidOperationException Untold(string name) => new($"the reader of rule sets knows the name {name}, of which the schema says nothing; say it in {nameof(RuleSetSchema)}");
}
