using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using FoamRules.Text;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Forms;

/// <summary>A short form as somebody filled it in. An empty field is not known, and is left out of the plan.</summary>
/// <param name="Form">The form.</param>
/// <param name="Values">What was written, by path; the unit of a quantity under the path with <c>:unit</c>.</param>
public sealed partial record FilledForm(ShortForm Form, IReadOnlyDictionary<string, string> Values)
{
    /// <summary>A form that nobody has filled in.</summary>
    public static FilledForm Empty(ShortForm form) => new(form, new Dictionary<string, string>());

    /// <summary>What was sent.</summary>
    public static FilledForm Of(ShortForm form, IFormCollection sent) =>
        new(form, sent.Where(pair => pair.Value.ToString().Trim().Length > 0).ToDictionary(pair => pair.Key, pair => pair.Value.ToString().Trim()));

    /// <summary>What was written into a field; empty: nothing.</summary>
    public string this[string name] => Values.GetValueOrDefault(name, "");

    /// <summary>The name of the field that holds a quantity's unit.</summary>
    public static string UnitOf(PlanField field) => field.Path + ":unit";

    /// <summary>The name of the box that says that a list has no entries, which is another thing than not knowing them.</summary>
    public static string NoneOf(string list) => list + ":none";

    private string TimeZone => this[ShortForm.TimeZone];

    private IEnumerable<PlanField> Given => Form.Fields.Where(one => Values.ContainsKey(one.Path));

    /// <summary>The plan as a text.</summary>
    public string Plan()
    {
        var plan = new JsonObject();
        foreach (var (path, value) in Form.Fixed)
        {
            Put(plan, path, value);
        }

        Put(plan, Form.Kind, new JsonObject());
        foreach (var list in Form.MayBeNone.Where(list => Values.ContainsKey(NoneOf(list))))
        {
            Put(plan, list, new JsonArray());
        }

        foreach (var (path, value) in Form.Besides.Where(pair => HasRow(pair.Path)))
        {
            Put(plan, Place(path), value);
        }

        foreach (var field in Given.Where(field => field.Kind != PlanFieldKind.Instant || At(field) is not null))
        {
            var text = this[field.Path];
            JsonNode value = field.Kind switch
            {
                PlanFieldKind.Number or PlanFieldKind.Count => Number(text),
                PlanFieldKind.YesNo => text == "true",
                PlanFieldKind.Quantity => new JsonObject { [Unit(field)] = Number(text) },
                PlanFieldKind.Instant => At(field)!.Value.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
                _ => text,
            };
            Put(plan, Place(field.Path), value);
        }

        return ReadableJson.Write(plan);
    }

    /// <summary>What only the form can find wrong: a time without a zone, or one that its clock never shows, and rows of a list that is said to have none.</summary>
    /// <param name="words">The words of the page.</param>
    public IReadOnlyList<Violation> Wrong(PageWords words) =>
    [
        .. Given.Where(field => field.Kind == PlanFieldKind.Instant && At(field) is null).Select(field => TimeZone.Length == 0
            ? new Violation(Place(field.Path), words["form-zone-found"], words["form-zone-allowed"], words["form-zone-remedy"])
            : new Violation(Place(field.Path), $"`{this[field.Path]}`", words["typed-instant"], words["typed-remedy"])),
        .. Form.MayBeNone.Where(list => Values.ContainsKey(NoneOf(list)))
            .SelectMany(list => Given.Where(field => field.Path.StartsWith(list + "[", StringComparison.Ordinal)).Take(1))
            .Select(field => new Violation(Place(field.Path), words["form-both-found"], words["form-both-allowed"], words["form-both-remedy"])),
    ];

    /// <summary>The field of which a violation tells; null where it is of none.</summary>
    public PlanField? FieldOf(Violation violation) => Form.Fields
        .Where(field => violation.Path == Place(field.Path) || violation.Path.StartsWith(Place(field.Path) + ".", StringComparison.Ordinal))
        .MaxBy(field => (Values.ContainsKey(field.Path), field.Path.Length));

    // A time is typed by the site's clock. Without the site's time zone nobody knows which time it is.
    private DateTimeOffset? At(PlanField field) => TimeZone.Length > 0 ? FactText.Instant(this[field.Path], TimeZone) : null;

    private bool HasRow(string path) => Given.Any(field => field.Path.StartsWith(path[..(path.LastIndexOf('.') + 1)], StringComparison.Ordinal));

    // A unit that the form does not offer is refused where the plan is read.
    private string Unit(PlanField field) => Values.TryGetValue(UnitOf(field), out var unit) ? unit : field.Names[0];

    // What is no number goes into the plan as it was written: the reader of plans says what is wrong with it.
    private static JsonValue Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? JsonValue.Create(number) : JsonValue.Create(text);

    // Rows of a list that are left empty close up: the second row is the first entry where the first row is empty.
    private string Place(string path) => Row().Replace(path, row =>
    {
        var list = path[..row.Index];
        var number = int.Parse(row.Groups[1].Value, CultureInfo.InvariantCulture);
        var before = Given.Select(field => field.Path).Where(other => other.StartsWith(list + "[", StringComparison.Ordinal))
            .Select(other => int.Parse(Row().Match(other, list.Length).Groups[1].Value, CultureInfo.InvariantCulture)).Distinct().Count(other => other < number);
        var fixedBefore = Form.Fixed.Any(pair => pair.Path.StartsWith(list + "[", StringComparison.Ordinal)) ? number : before;
        return $"[{fixedBefore.ToString(CultureInfo.InvariantCulture)}]";
    });

    private static void Put(JsonObject plan, string path, JsonNode value)
    {
        JsonNode at = plan;
        var steps = Step().Matches(path).Select(step => step.Value).ToList();
        for (var i = 0; i < steps.Count; i++)
        {
            JsonNode next = i == steps.Count - 1 ? value : char.IsAsciiDigit(steps[i + 1][0]) ? new JsonArray() : new JsonObject();
            if (at is JsonArray list)
            {
                var place = int.Parse(steps[i], CultureInfo.InvariantCulture);
                while (list.Count <= place)
                {
                    list.Add(new JsonObject());
                }

                at = list[place]!;
            }
            else
            {
                var map = (JsonObject)at;
                map[steps[i]] ??= next;
                at = map[steps[i]]!;
            }
        }
    }

    [GeneratedRegex(@"\[([0-9]+)\]")]
    private static partial Regex Row();

    [GeneratedRegex("[a-z_]+|[0-9]+")]
    private static partial Regex Step();
}
