using System.Net;
using System.Text.RegularExpressions;
using FoamRules.Access;

namespace FoamRules.Service.Tests.Access;

/// <summary>A person with an API key and a browser, which cannot send one by itself.</summary>
public sealed partial class SignInTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_browser_is_asked_for_a_key_once_and_keeps_it_sealed_from_scripts_and_other_sites()
    {
        var key = ApiKey.Make();
        await using var service = await Guarded.Start(Guarded.WithKeys((key, "Office", ["office", "reader"])), webPort: 0);
        var browser = Browser(service);
        using var asked = await browser.GetAsync("/compare?units=si", Cancellation);
        Assert.Equal((HttpStatusCode.Redirect, "/sign-in?back=%2Fcompare%3Funits%3Dsi"), (asked.StatusCode, asked.Headers.Location!.OriginalString));
        using var signed = await Send(browser, "/sign-in?back=%2Fcompare%3Funits%3Dsi", "/sign-in", ("api-key", key), ("back", "/compare?units=si"));
        Assert.Equal((HttpStatusCode.SeeOther, "/compare?units=si"), (signed.StatusCode, signed.Headers.Location!.OriginalString));
        var cookie = Assert.Single(signed.Headers.GetValues("Set-Cookie"), one => one.StartsWith("foamrules-key=", StringComparison.Ordinal));
        Assert.All(["secure", "httponly", "samesite=strict", "path=/"], part => Assert.Contains(part, cookie, StringComparison.Ordinal));
        Assert.DoesNotContain("expires", cookie, StringComparison.Ordinal);
        Assert.DoesNotContain(key, cookie, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/compare?units=si", Cancellation)).StatusCode);

        // The name is proven, and so is which roles there are; only which of them is asked.
        var who = await browser.GetStringAsync("/who", Cancellation);
        Assert.DoesNotContain("name=\"name\"", who, StringComparison.Ordinal);
        Assert.Equal(["office", "reader"], RoleInput().Matches(who).Select(match => match.Groups[1].Value).Order());
        using var higher = await Send(browser, "/who", "/who", ("role", "safety-officer"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, higher.StatusCode);
        using var chosen = await Send(browser, "/who", "/who", ("role", "office"), ("name", "Somebody else"));
        Assert.Equal(HttpStatusCode.SeeOther, chosen.StatusCode);
        Assert.Contains("Office, Office", await browser.GetStringAsync("/reviews", Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_browser_keeps_opens_pages_only_and_is_forgotten()
    {
        var key = ApiKey.Make();
        await using var service = await Guarded.Start(Guarded.WithKeys((key, "Office", ["office"])), webPort: 0);
        var browser = Browser(service);
        using var signed = await Send(browser, "/sign-in", "/sign-in", ("api-key", key));
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/", Cancellation)).StatusCode);
        foreach (var path in new[] { "/v1/rule-sets", "/metrics", "/openapi.json" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, path) { Headers = { { "Accept", "*/*" } } };
            using var refused = await browser.SendAsync(request, Cancellation);
            Assert.Equal((HttpStatusCode.Unauthorized, path), (refused.StatusCode, path));
        }

        using var grpc = new HttpRequestMessage(HttpMethod.Post, "/foamrules.v1.RuleCatalogService/ListRuleSets") { Content = new ByteArrayContent([0, 0, 0, 0, 0]) };
        grpc.Content.Headers.ContentType = new("application/grpc");
        using var answer = await browser.SendAsync(grpc, Cancellation);
        Assert.Equal("16", answer.Headers.GetValues("grpc-status").Single());

        using var gone = await Send(browser, "/sign-in", "/sign-out");
        Assert.Equal(HttpStatusCode.SeeOther, gone.StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/", Cancellation)).StatusCode);
    }

    [Fact]
    public async Task A_key_that_is_not_known_opens_nothing_and_neither_does_a_cookie_that_is_made_up()
    {
        await using var service = await Guarded.Start(Guarded.WithKeys((ApiKey.Make(), "Office", ["office"])), webPort: 0);
        var (browser, wrong) = (Browser(service), ApiKey.Make());
        using var refused = await Send(browser, "/sign-in", "/sign-in", ("api-key", wrong));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.DoesNotContain(wrong, await refused.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
        Assert.DoesNotContain(wrong, string.Join('\n', service.Log.Select(line => line.RenderMessage(System.Globalization.CultureInfo.InvariantCulture))), StringComparison.Ordinal);
        Assert.Contains(service.Log, line => line.RenderMessage(System.Globalization.CultureInfo.InvariantCulture).StartsWith("Sign-in from", StringComparison.Ordinal));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/") { Headers = { { "Cookie", $"foamrules-key={wrong}" } } };
        using var answer = await Browser(service).SendAsync(request, Cancellation);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
    }

    [Theory]
    [InlineData("//elsewhere.example/")]
    [InlineData("https://elsewhere.example/")]
    [InlineData("/\\elsewhere.example")]
    public async Task Nobody_is_signed_in_by_another_site_or_led_to_one(string back)
    {
        var key = ApiKey.Make();
        await using var service = await Guarded.Start(Guarded.WithKeys((key, "Office", ["office"])), webPort: 0);
        var browser = Browser(service);
        using var bare = await browser.PostAsync("/sign-in", new FormUrlEncodedContent([new("api-key", key)]), Cancellation);
        Assert.Equal(HttpStatusCode.BadRequest, bare.StatusCode);
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/sign-in") { Content = new FormUrlEncodedContent([new("api-key", key)]), Headers = { { "Origin", "https://elsewhere.example" } } };
        using var refused = await browser.SendAsync(foreign, Cancellation);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        using var signed = await Send(browser, "/sign-in", "/sign-in", ("api-key", key), ("back", back));
        Assert.Equal("/", signed.Headers.Location!.OriginalString);
    }

    /// <summary>Gives a key to the page that asks for one.</summary>
    internal static async Task SignIn(HttpClient browser, string key)
    {
        using var signed = await Send(browser, "/sign-in", "/sign-in", ("api-key", key));
        Assert.Equal(HttpStatusCode.SeeOther, signed.StatusCode);
    }

    private static HttpClient Browser(Guarded service)
    {
        var browser = service.Http();
        browser.DefaultRequestHeaders.Add("Accept", "text/html");
        return browser;
    }

    // Fills in the form of a page.
    private static async Task<HttpResponseMessage> Send(HttpClient browser, string page, string action, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(await browser.GetStringAsync(page, Cancellation)).Groups[1].Value;
        return await browser.PostAsync(action, new FormUrlEncodedContent([new("form-token", token), .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value))]), Cancellation);
    }

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"role\" value=\"([a-z-]+)\"")]
    private static partial Regex RoleInput();
}
