using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using FoamRules.Pages.Site;

namespace FoamRules.Pages.Tests;

/// <summary>What the pages answer, without a browser: headers, refusals, languages.</summary>
/// <param name="site">The pages.</param>
public sealed partial class AnswerTests(PageSite site)
{
    private const string Small = "name: Two posts\nstage: quote\nareas: [{ id: hall }]\nproducts: [{ id: foam }]\nwork: [{ id: posts, area: hall, product: foam, cavity_fill: { count: 2 } }]\n";

    [Fact]
    public async Task A_page_loads_nothing_from_elsewhere_and_nobody_frames_it()
    {
        var answer = await site.Client.GetAsync("/", TestContext.Current.CancellationToken);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none';", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        var body = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.DoesNotMatch("""(src|href|action)="(https?:)?//""", body);
        Assert.DoesNotMatch("<style|style=|<script>|onclick=", body);
    }

    [Fact]
    public async Task A_picture_needs_no_style_in_the_markup()
    {
        var body = await site.Client.GetStringAsync("/report?example=cold-store-dock&for=safety", TestContext.Current.CancellationToken);
        Assert.Contains("<svg", body, StringComparison.Ordinal);
        Assert.DoesNotContain(" style=", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_style_is_kept_for_good_and_an_old_address_is_not()
    {
        var address = PageAssets.Styles[0];
        Assert.Contains("immutable", (await site.Client.GetAsync(address, TestContext.Current.CancellationToken)).Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        Assert.True((await site.Client.GetAsync("/assets/old/1-ground.css", TestContext.Current.CancellationToken)).Headers.CacheControl!.NoCache);
        Assert.Equal(HttpStatusCode.NotFound, (await site.Client.GetAsync("/assets/old/no.css", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task A_plan_that_is_pasted_is_judged() => Assert.Contains("Two posts", await Body(HttpStatusCode.OK, ("plan", Small)), StringComparison.Ordinal);

    [Fact]
    public async Task A_plan_that_cannot_be_read_is_told_all_at_once_with_line_and_column()
    {
        var body = await Body(HttpStatusCode.UnprocessableEntity, ("plan", "name: x\nstage: never\nwork:\n  - id: a\n    thickness: 4\n"));
        Assert.Contains("line 2, column 8", body, StringComparison.Ordinal);
        Assert.Contains("line 5, column 5", body, StringComparison.Ordinal);
        Assert.Contains("thickness: 4", body, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", body, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("not: [a plan")]
    [InlineData("{")]
    [InlineData("\0\u0001")]
    [InlineData("   ")]
    [InlineData("<script>alert(1)</script>")]
    public async Task Whatever_is_pasted_answers_a_page(string plan)
    {
        var body = await Body(HttpStatusCode.UnprocessableEntity, ("plan", plan));
        Assert.DoesNotContain("<script>alert", body, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Names_that_are_not_known_are_told_all_at_once()
    {
        var answer = await site.Client.GetAsync("/report?example=none&for=boss&units=cubits&stage=later", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var body = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.All(["`none`", "`boss`", "`cubits`", "`later`"], found => Assert.Contains(found, body, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_form_of_another_site_is_refused()
    {
        using var stranger = site.NewClient();
        var answer = await stranger.PostAsync("/report", new FormUrlEncodedContent([new("plan", Small)]), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.DoesNotContain("Two posts", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_that_is_too_large_is_refused() =>
        Assert.Contains("up to 4 MB", await Body(HttpStatusCode.RequestEntityTooLarge, ("plan", new string('x', PostedForm.MaxBytes + 1000))), StringComparison.Ordinal);

    [Fact]
    public async Task What_is_no_form_is_refused()
    {
        var answer = await site.Client.PostAsync("/report", new StringContent("{}", Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Theory]
    [InlineData("fr-CA,fr;q=0.8,en;q=0.5", "fr")]
    [InlineData("de,es-MX;q=0.7", "es")]
    [InlineData("de", "en")]
    public async Task A_page_speaks_what_the_browser_prefers(string preferred, string language)
    {
        using var client = site.NewClient();
        client.DefaultRequestHeaders.Add("Accept-Language", preferred);
        Assert.Contains($"<html lang=\"{language}\"", await client.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_language_that_was_chosen_stays_chosen()
    {
        using var client = site.NewClient();
        client.DefaultRequestHeaders.Add("Accept-Language", "fr");
        await client.GetStringAsync("/?language=es", TestContext.Current.CancellationToken);
        Assert.Contains("<html lang=\"es\"", await client.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private async Task<string> Body(HttpStatusCode expected, params (string Name, string Value)[] fields)
    {
        var home = await site.Client.GetStringAsync("/", TestContext.Current.CancellationToken);
        using var form = new MultipartFormDataContent { { new StringContent(Token().Match(home).Groups[1].Value), "form-token" } };
        foreach (var (name, value) in fields)
        {
            form.Add(new StringContent(value), name);
        }

        var answer = await site.Client.PostAsync("/report", form, TestContext.Current.CancellationToken);
        var body = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(expected == answer.StatusCode, $"{answer.StatusCode}: {body}");
        return body;
    }

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
