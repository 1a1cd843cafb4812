using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>A form of a review's page, as it was sent.</summary>
/// <param name="Id">The review.</param>
/// <param name="Fields">Its fields.</param>
/// <param name="Words">The words of the page.</param>
/// <param name="File">The text of the file that came with it, and its name.</param>
/// <param name="Now">Written into a plan that does not say when it is judged.</param>
public sealed record SentForm(string Id, IFormCollection Fields, PageWords Words, (string Text, string Name)? File, DateTimeOffset Now)
{
    /// <summary>Which form of the page it was.</summary>
    public string Form { get; init; } = "";

    /// <summary>What cannot be read in it.</summary>
    public List<Violation> Wrong { get; } = [];

    /// <summary>What was written into a field; empty: nothing.</summary>
    public string this[string name] => Fields[name].ToString().Trim();

    /// <summary>The key that was made when the form was opened.</summary>
    public string Key => this["key"];

    /// <summary>The version that the person saw.</summary>
    public long Seen => long.TryParse(this["seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var seen) ? seen : 0;

    /// <summary>The subject of the finding that it is about.</summary>
    public Subject Subject => new() { Kind = (SubjectKind)(int.TryParse(this["subject_kind"], NumberStyles.None, CultureInfo.InvariantCulture, out var kind) ? kind : 0), Id = this["subject"] };

    /// <summary>Tells the forms of several findings apart.</summary>
    public string About => this["requirement"].Length == 0 ? "" : $" {this["requirement"]} {this["subject_kind"]} {this["subject"]}";

    /// <summary>Why it cannot be sent on; null: it can.</summary>
    public Trouble? Unreadable => Wrong.Count == 0 ? null : new Trouble(StatusCodes.Status422UnprocessableEntity, Fields.ContainsKey("plan") ? "PLAN_UNREADABLE" : "REQUEST_UNREADABLE", null, Wrong);

    /// <summary>The plan in it, from a file or pasted; what cannot be read goes to <see cref="Wrong"/>.</summary>
    public Plan Plan
    {
        get
        {
            var text = File?.Text ?? Fields["plan"].ToString();
            if (string.IsNullOrWhiteSpace(text))
            {
                Wrong.Add(new Violation("plan", Words["plan-none"], Words["plan-none-allowed"], Words["plan-none-remedy"]));
                return new Plan();
            }

            var read = PlanReader.ReadText(text, File?.Name, new ReadOptions(Now));
            Wrong.AddRange(read.Violations);
            return read.Plan is null ? new Plan() : read.Message!;
        }
    }

    /// <summary>Reads a form that was sent.</summary>
    public static async Task<(SentForm? Form, Trouble? Trouble)> Read(HttpContext http, PageWords words, string id)
    {
        var (form, problem, status) = await PostedForm.Read(http, words).ConfigureAwait(false);
        if (form is null)
        {
            return (null, new Trouble(status, "FORM_UNREADABLE", null, [problem!]));
        }

        (string, string)? file = null;
        if (form.Files.GetFile("file") is { Length: > 0 } sent)
        {
            using var reader = new StreamReader(sent.OpenReadStream());
            file = (await reader.ReadToEndAsync(http.RequestAborted).ConfigureAwait(false), Path.GetFileName(sent.FileName));
        }

        return (new SentForm(id, form, words, file, http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow()), null);
    }
}
