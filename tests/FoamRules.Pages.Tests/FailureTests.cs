using System.Net;
using System.Text.RegularExpressions;
using FoamRules.Pages.Site;

namespace FoamRules.Pages.Tests;

/// <summary>What a person sees where the service has no answer: that nothing was judged and what to do, in their language, and nothing of its inside.</summary>
/// <param name="site">The pages.</param>
public sealed class FailureTests(PageSite site)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public static TheoryData<string, HttpStatusCode, string, string> Failures
    {
        get
        {
            var rows = new TheoryData<string, HttpStatusCode, string, string>();
            foreach (var (path, status, key) in new[]
            {
                ("/failing/throws", HttpStatusCode.InternalServerError, "failed"),
                ("/failing/begun", HttpStatusCode.InternalServerError, "failed"),
                ("/failing/too-long", HttpStatusCode.GatewayTimeout, "failed-too-long"),
                ("/failing/unavailable", HttpStatusCode.ServiceUnavailable, "failed-unavailable"),
                ("/no/such/file.png", HttpStatusCode.NotFound, "failed-not-taken"),
            })
            {
                foreach (var language in PageWords.Languages)
                {
                    rows.Add(path, status, key, language);
                }
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(Failures))]
    public async Task A_page_says_that_nothing_was_judged_and_what_to_do(string path, HttpStatusCode status, string key, string language)
    {
        var (answer, page) = await Ask(HttpMethod.Get, path, language);
        Assert.Equal((status, "text/html"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        Assert.StartsWith("default-src 'none';", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Contains($"<html lang=\"{language}\"", page, StringComparison.Ordinal);
        var words = PageWords.In(language);
        Assert.All([$"{key}-title", $"{key}-why", $"{key}-remedy", "failed-judged", "failed-never-a-pass"], said => Assert.Contains(words[said], page, StringComparison.Ordinal));
        // Asking once more is offered where it may help.
        Assert.Equal(status >= HttpStatusCode.InternalServerError, page.Contains(words["failed-again"] + "</a>", StringComparison.Ordinal));
        TellsNothingOfItsInside(answer, page);
    }

    [Fact]
    public async Task A_form_that_was_sent_is_not_sent_again_by_a_link()
    {
        var (_, page) = await Ask(HttpMethod.Post, "/failing/throws", "en");
        var words = PageWords.In("en");
        Assert.Contains(words["failed-sent"], page, StringComparison.Ordinal);
        Assert.Contains(words["failed-judged"], page, StringComparison.Ordinal);
        Assert.DoesNotContain(words["failed-again"] + "</a>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_act_on_a_review_may_be_on_record_although_the_answer_failed()
    {
        var (answer, page) = await Ask(HttpMethod.Post, "/reviews/failing/throws", "en");
        var words = PageWords.In("en");
        Assert.Contains(words["failed-sent-act"], page, StringComparison.Ordinal);
        Assert.Contains(words["failed-not-told"], page, StringComparison.Ordinal);
        Assert.DoesNotContain(words["failed-judged"], page, StringComparison.Ordinal);
        TellsNothingOfItsInside(answer, page);
    }

    [Fact]
    public async Task The_log_has_what_was_thrown_under_the_id_that_the_page_tells()
    {
        var (_, page) = await Ask(HttpMethod.Get, "/failing/throws", "en");
        var id = Regex.Match(page, "status 500, request ([^.<]+)\\.").Groups[1].Value;
        Assert.NotEqual("", id);
        Assert.Contains(site.Thrown, thrown => thrown.Exception!.Message == Failing.Inside && thrown.Properties.TryGetValue("RequestId", out var logged) && logged.ToString() == $"\"{id}\"");
    }

    [Fact]
    public async Task A_program_gets_the_status_alone()
    {
        using var client = site.NewClient();
        var answer = await client.GetAsync("/failing/throws", Cancellation);
        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.Equal("", await answer.Content.ReadAsStringAsync(Cancellation));
    }

    [Fact]
    public async Task A_link_of_a_page_leads_nowhere_else()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri($"{site.Address.ToString().TrimEnd('/')}//elsewhere.example/x.png")) { Headers = { { "Accept", "text/html" } } };
        using var client = site.NewClient();
        var page = await (await client.SendAsync(request, Cancellation)).Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("href=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"//", page, StringComparison.Ordinal);
    }

    private async Task<(HttpResponseMessage Answer, string Page)> Ask(HttpMethod method, string path, string language)
    {
        using var client = site.NewClient();
        using var request = new HttpRequestMessage(method, path) { Headers = { { "Accept", "text/html,*/*;q=0.8" }, { "Accept-Language", language } } };
        var answer = await client.SendAsync(request, Cancellation);
        return (answer, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation)));
    }

    private static void TellsNothingOfItsInside(HttpResponseMessage answer, string page)
    {
        Assert.DoesNotContain(Failing.Inside, page, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", page, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", page, StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("x-half"));
    }
}
