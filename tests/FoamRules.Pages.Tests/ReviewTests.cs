using System.Net;
using System.Text.RegularExpressions;
using FoamRules.Contracts.V1;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using FoamRules.Records.Tests;
using FoamRules.Testing;
using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>What the pages of reviews do to the record, and what they refuse.</summary>
/// <param name="site">The pages.</param>
public sealed class ReviewTests(PageSite site)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Whoever_has_not_said_who_they_are_is_asked_first_and_comes_back()
    {
        using var client = site.NewClient();
        var answer = await client.GetAsync("/reviews?text=dock", Cancellation);
        Assert.Equal("/who?back=%2Freviews%3Ftext%3Ddock", answer.Headers.Location!.ToString());
        var form = await client.GetStringAsync(answer.Headers.Location, Cancellation);
        var back = await client.PostAsync("/who", Form(form, ("name", "Åsa"), ("role", "reader"), ("back", "/reviews?text=dock")), Cancellation);
        Assert.Equal((HttpStatusCode.SeeOther, "/reviews?text=dock"), (back.StatusCode, back.Headers.Location!.ToString()));
        Assert.Contains("&#xC5;sa, Reader", await client.GetStringAsync("/reviews", Cancellation), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example")]
    [InlineData("https://elsewhere.example/")]
    public async Task Nobody_is_led_to_another_site(string back)
    {
        using var client = site.NewClient();
        var answer = await client.PostAsync("/who", Form(await client.GetStringAsync("/who", Cancellation), ("name", "Sam"), ("role", "reader"), ("back", back)), Cancellation);
        Assert.Equal("/reviews", answer.Headers.Location!.ToString());
    }

    [Theory]
    [InlineData("reader", "sign-off")]
    [InlineData("crew-lead", "sign-off")]
    [InlineData("office", "sign-off")]
    [InlineData("crew-lead", "revise")]
    [InlineData("reader", "comment")]
    [InlineData("reader", "release")]
    [InlineData("reader", "note")]
    [InlineData("office", "pre-start")]
    [InlineData("reader", "close-out")]
    public async Task A_role_that_may_not_is_refused_and_nothing_is_written(string role, string act)
    {
        var id = await ExampleReviews.SignedOff(site.Desk, $"Not for {role} to {act}");
        using var client = await As(role);
        // The page offers no such form; it is sent all the same.
        var page = await client.GetStringAsync("/who", Cancellation);
        var answer = await client.PostAsync($"/reviews/{id}/{act}", Form(page, ("text", "x"), ("why", "x"), ("seen", "2")), Cancellation);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains("Your role may not do this", await answer.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
        Assert.Equal(2, await Entries(id));
    }

    [Fact]
    public async Task A_form_of_another_site_does_nothing()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Forged");
        using var client = await As("safety-officer");
        var answer = await client.PostAsync($"/reviews/{id}/comment", new FormUrlEncodedContent([new("text", "x"), new("key", "k")]), Cancellation);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(2, await Entries(id));
    }

    [Fact]
    public async Task Who_comes_second_is_told_what_happened_since_and_can_look_again()
    {
        var receipt = await ExampleReviews.Submitted(site.Desk, "Raced", Plans.Sound());
        using var client = await As("safety-officer");
        var page = await client.GetStringAsync($"/reviews/{receipt.ReviewId}", Cancellation);
        await site.Desk.Comment(new AddCommentRequest { IdempotencyKey = "first", ReviewId = receipt.ReviewId, Text = "Wait" }, ExampleReviews.Crew, Cancellation);
        var answer = await client.PostAsync($"/reviews/{receipt.ReviewId}/sign-off", Form(page), Cancellation);
        var body = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Contains("Somebody was faster", body, StringComparison.Ordinal);
        Assert.Contains("Cris Crew: remarked", body, StringComparison.Ordinal);
        Assert.Contains("Look again", body, StringComparison.Ordinal);
        Assert.Equal(2, await Entries(receipt.ReviewId));
        Assert.Equal(HttpStatusCode.SeeOther, (await client.PostAsync($"/reviews/{receipt.ReviewId}/sign-off", Form(body), Cancellation)).StatusCode);
    }

    [Fact]
    public async Task A_hold_is_released_with_the_role_the_reason_and_the_time_on_the_site_s_clock()
    {
        var receipt = await ExampleReviews.Submitted(site.Desk, "To release", Plans.Held());
        using var client = await As("safety-officer");
        var page = await client.GetStringAsync($"/reviews/{receipt.ReviewId}", Cancellation);
        var hold = new (string, string)[] { ("requirement", "fill.wall-holds-pressure"), ("subject_kind", $"{(int)SubjectKind.Work}"), ("subject", "posts"), ("time_zone", "America/Chicago"), ("acting_as", "safety officer") };
        var empty = await client.PostAsync($"/reviews/{receipt.ReviewId}/release", Form(page, [.. hold, ("why", ""), ("until", "soon")]), Cancellation);
        var body = await empty.Content.ReadAsStringAsync(Cancellation);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, empty.StatusCode);
        Assert.Contains("`soon`", body, StringComparison.Ordinal);
        Assert.Contains("aria-invalid=\"true\"", body, StringComparison.Ordinal);

        var done = await client.PostAsync($"/reviews/{receipt.ReviewId}/release", Form(page, [.. hold, ("why", "shop drawing seen"), ("until", "2026-04-20T18:00")]), Cancellation);
        Assert.Equal(HttpStatusCode.SeeOther, done.StatusCode);
        var review = await site.Desk.Get(new GetReviewRequest { ReviewId = receipt.ReviewId }, "", Cancellation);
        Assert.Equal(new DateTimeOffset(2026, 4, 20, 23, 0, 0, TimeSpan.Zero), Assert.Single(review.Releases).Until.ToDateTimeOffset());
        Assert.Empty(review.OpenHolds);
    }

    [Fact]
    public async Task A_form_that_is_sent_twice_is_on_record_once_with_the_first_answer()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Sent twice");
        using var client = await As("crew-lead");
        var page = await client.GetStringAsync($"/reviews/{id}/pre-start", Cancellation);
        var first = await client.PostAsync($"/reviews/{id}/pre-start", Form(page), Cancellation);
        var again = await client.PostAsync($"/reviews/{id}/pre-start", Form(page), Cancellation);
        Assert.Equal(HttpStatusCode.SeeOther, first.StatusCode);
        Assert.Equal(first.Headers.Location, again.Headers.Location);
        Assert.Equal(3, await Entries(id));

        var other = await client.PostAsync($"/reviews/{id}/pre-start", Form(page, ("areas[0].readings[0].temperature", "70"), ("areas[0].readings[0].temperature:unit", "degrees_fahrenheit")), Cancellation);
        Assert.Equal(HttpStatusCode.Conflict, other.StatusCode);
        Assert.Contains("on record already", await other.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_read_is_said_beside_its_field_and_nothing_is_written()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Unreadable");
        using var client = await As("crew-lead");
        var page = await client.GetStringAsync($"/reviews/{id}/pre-start", Cancellation);
        var answer = await client.PostAsync($"/reviews/{id}/pre-start", Form(page,
            ("areas[0].readings[0].temperature", "warm"), ("areas[0].readings[0].temperature:unit", "degrees_fahrenheit"),
            ("areas[0].readings[1].humidity", "140"), ("areas[0].readings[1].humidity:unit", "percent")), Cancellation);
        var body = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("`warm`", body, StringComparison.Ordinal);
        Assert.Contains("id=\"f-areas-0--readings-0--temperature-wrong\"", body, StringComparison.Ordinal);
        Assert.Contains("value=\"140\"", body, StringComparison.Ordinal);
        Assert.Equal(2, await Entries(id));

        // The record's own check finds the other, by the place that it then has in the plan.
        answer = await client.PostAsync($"/reviews/{id}/pre-start", Form(page, ("areas[0].readings[1].humidity", "140"), ("areas[0].readings[1].humidity:unit", "percent")), Cancellation);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("id=\"f-areas-0--readings-1--humidity-wrong\"", await answer.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public void A_fact_that_is_cleared_is_not_known_and_a_reading_of_another_day_does_not_stand_in()
    {
        var signed = Plans.Sound();
        signed.Areas[0].Readings.Add(new Reading { Kind = ReadingKind.AirTemperature, Temperature = new Temperature { DegreesFahrenheit = 68 } });
        var sheet = PreStartFacts.Of(signed, DisplayUnits.Us, new DateTimeOffset(2026, 4, 14, 12, 0, 0, TimeSpan.Zero));
        var typed = sheet.Facts.ToDictionary(fact => fact.Path, fact => fact.Value);
        foreach (var fact in sheet.Facts)
        {
            typed[fact.UnitName] = fact.Unit;
        }

        var same = sheet.Answered(name => typed.GetValueOrDefault(name, ""), PageWords.In("en"), out var wrong);
        Assert.Empty(wrong);
        Assert.Empty(same.Areas[0].Readings);
        Assert.Equal((signed.People, signed.Products, signed.Work, signed.Gear), (same.People, same.Products, same.Work, same.Gear));

        typed["work[0].cavity_fill.steel_temperature"] = "";
        typed["people[1]:here"] = "";
        typed["people[2].id"] = "newcomer";
        var today = sheet.Answered(name => typed.GetValueOrDefault(name, ""), PageWords.In("en"), out wrong);
        Assert.Empty(wrong);
        Assert.Null(today.Work[0].CavityFill.SteelTemperature);
        Assert.Equal(["sprayer", "newcomer"], today.People.Select(person => person.Id));
        Assert.Null(today.People[1].Respirator);
    }

    [Fact]
    public void Every_fact_and_every_refusal_has_its_words()
    {
        var keys = PageWords.In("en").Texts.Keys.ToHashSet();
        var at = new DateTimeOffset(2026, 4, 14, 12, 0, 0, TimeSpan.Zero);
        var plan = Plans.Sound();
        plan.Areas[0].Enclosure = Enclosure.Exterior;
        foreach (var sheet in new[] { PreStartFacts.Of(plan, DisplayUnits.Us, at), CloseOutFacts.Of(plan, DisplayUnits.Si, at) })
        {
            Assert.All(sheet.Facts, fact => Assert.Contains(fact.Label, keys));
            Assert.All(sheet.Facts.SelectMany(fact => fact.Names), name => Assert.Contains($"fact-choice-{name.Name}", keys));
            Assert.All(sheet.Steps, step => Assert.Contains($"step-{step.Name}", keys));
        }

        var reasons = Directory.GetFiles(Repository.PathOf("src", "FoamRules.Records"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(file => Regex.Matches(File.ReadAllText(file), "RefusedException\\(\\s*Refused\\.\\w+, \"([A-Z_]+)\"")).Select(match => match.Groups[1].Value).Distinct().ToList();
        Assert.NotEmpty(reasons);
        Assert.All(reasons, reason => Assert.Contains($"refused-{reason.ToLowerInvariant().Replace('_', '-')}", keys));
        Assert.All(Enum.GetValues<ActKind>().Where(kind => kind != ActKind.Unspecified), kind => Assert.Contains($"act-{Regex.Replace(kind.ToString(), "(?<!^)([A-Z])", "-$1").ToLowerInvariant()}", keys));
    }

    [Fact]
    public async Task Without_a_signal_the_form_keeps_what_was_typed_and_sends_it_once()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Without a signal");
        var page = await site.Open(390, 844);
        await Enter(page, "crew-lead");
        await page.GotoAsync($"/reviews/{id}/pre-start#step-air");
        await page.Context.SetOfflineAsync(true);
        var air = page.Locator("[name='areas[0].readings[0].temperature']");
        await air.FillAsync("68.5");
        await page.EvaluateAsync("location.hash = 'step-send'");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check now" }).ClickAsync();
        await Assertions.Expect(page.Locator("[data-keep-state]")).ToContainTextAsync("No signal");
        Assert.Equal("68.5", await air.InputValueAsync());
        Assert.Equal(2, await Entries(id));

        await page.Context.SetOfflineAsync(false);
        await page.WaitForURLAsync("**/pre-start/*");
        Assert.NotEqual("", await page.Locator("h1.word").InnerTextAsync());
        Assert.Equal(0, await page.EvaluateAsync<int>("localStorage.length"));
        Assert.Equal(3, await Entries(id));
        var review = await site.Desk.Get(new GetReviewRequest { ReviewId = id }, "", Cancellation);
        Assert.Equal(68.5, Assert.Single(review.Plan.Areas[0].Readings).Temperature.DegreesFahrenheit);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_form_that_was_left_is_found_again_and_what_was_on_its_way_is_sent_once()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Left and found");
        var page = await site.Open(390, 844);
        await Enter(page, "crew-lead");
        await page.GotoAsync($"/reviews/{id}/pre-start#step-air");
        await page.Locator("[name='areas[0].readings[0].temperature']").FillAsync("61");
        var key = await page.Locator("[name=key]").InputValueAsync();
        await page.CloseAsync(new() { RunBeforeUnload = false });

        page = await page.Context.NewPageAsync();
        page.SetDefaultTimeout(120_000);
        await page.GotoAsync($"/reviews/{id}/pre-start#step-air");
        Assert.Equal("61", await page.Locator("[name='areas[0].readings[0].temperature']").InputValueAsync());
        Assert.Equal(key, await page.Locator("[name=key]").InputValueAsync());

        // The answer is lost on its way back: the record has it, the phone does not know.
        var lost = new TaskCompletionSource();
        await page.RouteAsync($"**/reviews/{id}/pre-start", async route =>
        {
            if (route.Request.Method == "POST")
            {
                await route.FetchAsync(new() { MaxRedirects = 0 });
                await route.AbortAsync();
                lost.TrySetResult();
            }
            else
            {
                await route.ContinueAsync();
            }
        });
        await page.EvaluateAsync("location.hash = 'step-send'");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check now" }).ClickAsync();
        await lost.Task.WaitAsync(TimeSpan.FromMinutes(2), Cancellation);
        Assert.Equal(3, await Entries(id));
        await page.UnrouteAllAsync();
        page = await page.Context.NewPageAsync();
        page.SetDefaultTimeout(120_000);
        await page.GotoAsync($"/reviews/{id}/pre-start");
        await page.WaitForURLAsync("**/pre-start/*");
        Assert.Equal(3, await Entries(id));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task An_area_is_released_for_re_entry_once_its_time_has_passed_and_not_before()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "Re-entry");
        using var client = await As("safety-officer");
        var address = $"/reviews/{id}/re-enter/dock";
        var page = await client.GetStringAsync(address, Cancellation);
        (string, string)[] seen = [("group", "occupants"), ("areas[0].reentry.cleaned", "true"), ("areas[0].reentry.covers_off", "true"), ("areas[0].reentry.odour_remains", "false"), ("acting_as", "safety officer"), ("remark", "looked at by two")];
        var empty = await client.PostAsync(address, Form(page, ("acting_as", "safety officer")), Cancellation);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, empty.StatusCode);
        Assert.Equal(2, Regex.Count(await empty.Content.ReadAsStringAsync(Cancellation), "<dd>answer it: without it"));
        var early = await client.PostAsync(address, Form(page, [.. seen, ("areas[0].last_spray_at", "2026-04-09T15:30")]), Cancellation);
        Assert.Equal(HttpStatusCode.Conflict, early.StatusCode);
        var refused = await early.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("dock is not released", refused, StringComparison.Ordinal);
        Assert.Contains("value=\"2026-04-09T15:30\"", refused, StringComparison.Ordinal);
        var later = await client.PostAsync(address, Form(refused, [.. seen, ("areas[0].last_spray_at", "2026-04-11T15:30")]), Cancellation);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, later.StatusCode);
        Assert.Contains("href=\"#f-areas-0--last-spray-at\"", await later.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
        Assert.Equal(2, await Entries(id));

        var released = await client.PostAsync(address, Form(page, [.. seen, ("areas[0].last_spray_at", "2026-04-06T15:30")]), Cancellation);
        Assert.StartsWith($"/reviews/{id}?done=", released.Headers.Location?.ToString(), StringComparison.Ordinal);
        Assert.Equal(3, await Entries(id));
        Assert.Contains("dock, Occupants</b>: released; not before 2026-04-07 15:30 America/Chicago", await client.GetStringAsync($"/reviews/{id}", Cancellation), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/reviews/{id}/re-enter/nowhere", Cancellation)).StatusCode);
        using var crew = await As("crew-lead");
        Assert.Equal(HttpStatusCode.Forbidden, (await crew.GetAsync(address, Cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await crew.PostAsync(address, Form(await crew.GetStringAsync("/who", Cancellation), seen), Cancellation)).StatusCode);
    }

    [Fact]
    public async Task The_sheet_for_paper_is_of_what_was_signed_and_names_its_entry()
    {
        var id = await ExampleReviews.SignedOff(site.Desk, "On paper");
        using var client = await As("crew-lead");
        var sheet = await client.GetStringAsync($"/reviews/{id}/sheet/pre-start", Cancellation);
        Assert.Contains("revision 1, which is signed off", sheet, StringComparison.Ordinal);
        var record = await site.Desk.Get(new GetReviewRequest { ReviewId = id }, "", Cancellation);
        Assert.Contains(record.History[0].Receipt.Hash, sheet, StringComparison.Ordinal);
        var open = await ExampleReviews.Submitted(site.Desk, "Not on paper yet", Plans.Sound());
        Assert.Equal(HttpStatusCode.Conflict, (await client.GetAsync($"/reviews/{open.ReviewId}/sheet/pre-start", Cancellation)).StatusCode);
    }

    [Fact]
    public void Gas_is_asked_for_in_a_place_that_may_be_a_confined_space_and_in_no_other()
    {
        var plan = Plans.Sound();
        Assert.DoesNotContain(PreStartFacts.Of(plan, DisplayUnits.Us, PageSite.Now).Facts, fact => fact.Path.EndsWith(".oxygen", StringComparison.Ordinal));
        plan.Areas[0].ConfinedSpace = new ConfinedSpace { Classification = ConfinedSpaceClass.PermitRequired };
        var sheet = PreStartFacts.Of(plan, DisplayUnits.Us, PageSite.Now);
        var oxygen = Assert.Single(sheet.Facts, fact => fact.Path.EndsWith(".oxygen", StringComparison.Ordinal)).Path;
        var gas = sheet.Facts.Single(fact => fact.Path.EndsWith(".lower_flammable_limit", StringComparison.Ordinal)).Path;
        // Either is a reading; that it is measured all the time is none yet.
        foreach (var (path, text, readings) in new[] { (oxygen, "20.9", 1), (gas, "0", 1), (oxygen.Replace("oxygen", "continuous", StringComparison.Ordinal), "true", 0) })
        {
            var answered = sheet.Answered(name => name == path ? text : name == $"{path}:unit" ? "percent" : "", PageWords.In(PageWords.English), out var wrong);
            Assert.Empty(wrong);
            Assert.Equal(readings, answered.Areas[0].Readings.Count(reading => reading.Kind == ReadingKind.GasTest));
        }
    }

    [Fact]
    public async Task The_answer_before_the_start_and_the_certificate_are_told_in_the_page_s_language()
    {
        using var client = await As("crew-lead");
        var id = await ExampleReviews.SignedOff(site.Desk, "In Spanish");
        var check = await site.Desk.CheckPreStart(new CheckPreStartRequest { IdempotencyKey = Guid.NewGuid().ToString("N"), ReviewId = id }, ExampleReviews.Crew, Cancellation);
        var reason = Assert.Single(check.Reasons);
        Assert.Equal(PreStartReasonKind.OpenHolds, reason.Kind);
        var answer = await client.GetStringAsync($"/reviews/{id}/pre-start/{check.Receipt.Sequence}?language=es", Cancellation);
        Assert.Contains($"Retenciones abiertas: {reason.Number}.", answer, StringComparison.Ordinal);
        var history = WebUtility.HtmlDecode(await client.GetStringAsync($"/reviews/{id}?language=es", Cancellation));
        Assert.Contains("<p>firmó la revisión 1", history, StringComparison.Ordinal);
        Assert.Contains("<p>comprobación antes de empezar con la revisión 1: esperar</p>", history, StringComparison.Ordinal);
        Assert.All(reason.Requirements, requirement => Assert.Contains($"<code>{requirement}</code>", answer, StringComparison.Ordinal));
        Assert.DoesNotContain(check.Because[0], answer, StringComparison.Ordinal);

        var built = Plans.AsBuilt();
        built.Name = "In Spanish";
        var closed = await site.Desk.CloseOut(
            new CloseOutRequest { IdempotencyKey = Guid.NewGuid().ToString("N"), ReviewId = id, SeenVersion = await ExampleReviews.Version(site.Desk, id), Plan = built }, ExampleReviews.Crew, Cancellation);
        Assert.NotEmpty(closed.Certificate.Open);
        var certificate = await client.GetStringAsync($"/reviews/{id}/certificate?language=es", Cancellation);
        Assert.All(closed.Certificate.Open, finding => Assert.Contains($"<code>{finding.Requirement}</code>", certificate, StringComparison.Ordinal));
        Assert.All(closed.Certificate.Open, finding => Assert.DoesNotContain(finding.MustHold, WebUtility.HtmlDecode(certificate), StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_whole_way_goes_without_script()
    {
        var page = await site.Open(390, 844, script: false);
        await Enter(page, "safety-officer");
        await page.GotoAsync("/report?example=cold-store-dock&for=office");
        await page.GetByRole(AriaRole.Button, new() { Name = "Submit this plan" }).ClickAsync();
        await page.WaitForURLAsync("**/reviews/*");
        await page.Locator("form[action$='/sign-off'] button").ClickAsync();
        await page.WaitForURLAsync("**done=*");
        await page.GetByRole(AriaRole.Link, new() { Name = "Pre-start check" }).ClickAsync();
        for (var next = page.Locator(".step:visible .ways a:has-text('Next')"); await next.CountAsync() > 0;)
        {
            await next.ClickAsync();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Check now" }).ClickAsync();
        await page.WaitForURLAsync("**/pre-start/*");
        Assert.Contains(await page.Locator("h1.word").InnerTextAsync(), new[] { "HOLD", "STOP" });
        await page.GetByRole(AriaRole.Link, new() { Name = "To the review" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Close-out" }).ClickAsync();
        for (var next = page.Locator(".step:visible .ways a:has-text('Next')"); await next.CountAsync() > 0;)
        {
            await next.ClickAsync();
        }

        await page.Locator("form[data-keep] button:visible").ClickAsync();
        await page.WaitForURLAsync("**/certificate*");
        Assert.Matches("[0-9a-f]{64}", await page.Locator(".certificate").InnerTextAsync());
        await page.Context.CloseAsync();
    }

    private static async Task Enter(IPage page, string role)
    {
        await page.GotoAsync("/who");
        await page.Locator("#name").FillAsync("Sam Example");
        await page.Locator($"input[name=role][value={role}]").CheckAsync();
        await page.Locator("form button").ClickAsync();
        await page.WaitForURLAsync("**/reviews");
    }

    private async Task<HttpClient> As(string role)
    {
        var client = site.NewClient();
        await client.PostAsync("/who", Form(await client.GetStringAsync("/who", Cancellation), ("name", "Sam Example"), ("role", role)), Cancellation);
        return client;
    }

    // What the page's first forms carry unseen, and what is written besides.
    private static MultipartFormDataContent Form(string page, params (string Name, string Value)[] written)
    {
        var form = new MultipartFormDataContent();
        foreach (var name in new[] { "form-token", "key", "seen", "shown" }.Except(written.Select(field => field.Name)))
        {
            if (Regex.Match(page, $"name=\"{name}\" value=\"([^\"]*)\"") is { Success: true } match)
            {
                form.Add(new StringContent(match.Groups[1].Value), name);
            }
        }

        foreach (var (name, value) in written)
        {
            form.Add(new StringContent(value), name);
        }

        return form;
    }

    private async Task<int> Entries(string id) => (await site.Desk.Get(new GetReviewRequest { ReviewId = id }, "", Cancellation)).History.Count;
}
