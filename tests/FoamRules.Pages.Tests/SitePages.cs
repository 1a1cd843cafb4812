using System.Globalization;
using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>Every page, and the way to it. A new page joins by a line: the tests of all pages then take it in.</summary>
public static class SitePages
{
    private static readonly (string Name, Func<IPage, Task> Way)[] OfPlans =
    [
        ("home", At("/")),
        ("report-office", At("/report?example=cold-store-dock-quote&for=office")),
        ("report-safety", At("/report?example=cold-store-dock-broken&for=safety")),
        ("report-crew", At("/report?example=cold-store-dock-broken&for=crew&stage=pre-start")),
        ("report-proceed", At("/report?example=cold-store-dock&for=crew")),
        ("report-tried", At("/report?example=cold-store-dock-broken&for=whole&tried=1&units=si")),
        ("home-es", At("/?language=es")),
        ("report-crew-fr", At("/report?example=cold-store-dock&for=crew&stage=pre-start&language=fr")),
        ("report-office-es", At("/report?example=cold-store-dock-quote&for=office&language=es")),
        ("form-column", At("/form/column")),
        ("form-wall-fr", At("/form/wall?language=fr")),
        ("form-refused", Sent("/form/column", ("name", "Two posts"), ("work[0].cavity_fill.height", "ten"), ("work[0].cavity_fill.count", "0"))),
        ("form-report", Sent("/form/wall", ("name", "North wall"), ("work[0].spray.thickness", "4"), ("products[0].max_pass_thickness", "2"))),
        ("sheet-review", At("/sheet/review?example=cold-store-dock-broken")),
        ("sheet-re-entry", At("/sheet/re-entry?example=cold-store-dock")),
        ("sheet-pre-start-es", At("/sheet/pre-start?example=cold-store-dock&language=es")),
        ("requirements", At("/requirements")),
        ("requirements-vent-es", At("/requirements/vent?language=es")),
        ("requirement", At("/requirements/vent.air-can-leave?units=us")),
        ("requirement-fire", At("/requirements/fire.separated-from-interior")),
        ("compare", At("/compare")),
        ("compared", At("/compare?before=us-ibc-2018&after=example-company&example=cold-store-dock")),
        ("nothing", At("/requirements/no.such")),
        ("nowhere", At("/no/such/page")),
        ("failed", At("/failing/throws")),
        ("failed-too-long-es", At("/failing/too-long?language=es")),
        ("failed-unavailable-fr", At("/failing/unavailable?language=fr")),
        ("failed-not-taken", At("/no/such/file.png")),
        ("report-own", Pasted("name: Two posts\nstage: quote\nareas: [{ id: hall, enclosure: interior }]\nproducts: [{ id: foam, kind: closed-cell-pour }]\nwork: [{ id: posts, area: hall, product: foam, cavity_fill: { count: 2 } }]\n")),
        ("plan-refused", Pasted("name: Broken\nstage: never\nwork:\n  - id: a\n    thickness: 4\n")),
    ];

    private static readonly (string Name, Func<IPage, Task> Way)[] OfReviews =
    [
        ("who", At("/who")),
        ("reviews", Told("reader", "/reviews")),
        ("reviews-none-found", As("reader", "/reviews?text=nowhere&holds=yes")),
        ("reviews-es", As("reader", "/reviews?language=es")),
        ("review-held", Review("safety-officer", ExampleReviews.Held)),
        ("review-held-crew", Review("crew-lead", ExampleReviews.Held, "?for=crew")),
        ("review-revised", Review("office", ExampleReviews.Revised, "?for=office")),
        ("review-fr", Review("safety-officer", ExampleReviews.Signed, "?language=fr")),
        ("release-refused", Refused("safety-officer", ExampleReviews.Held)),
        ("pre-start", Review("crew-lead", ExampleReviews.Signed, "/pre-start")),
        ("pre-start-air", Review("crew-lead", ExampleReviews.Signed, "/pre-start#step-air")),
        ("pre-start-people", Review("crew-lead", ExampleReviews.Signed, "/pre-start#step-people")),
        ("pre-start-machine-es", Review("crew-lead", ExampleReviews.Signed, "/pre-start?language=es#step-machine")),
        ("pre-start-work", Review("crew-lead", ExampleReviews.Signed, "/pre-start#step-work")),
        ("pre-start-role-refused", Review("office", ExampleReviews.Signed, "/pre-start")),
        ("pre-start-answer", Answer(ExampleReviews.Checked, 0)),
        ("pre-start-answer-es", Answer(ExampleReviews.Checked, 1, "?language=es")),
        ("close-out", Review("crew-lead", ExampleReviews.Checked, "/close-out")),
        ("close-out-foam", Review("crew-lead", ExampleReviews.Checked, "/close-out#step-foam")),
        ("re-enter", ReEnter("safety-officer", ExampleReviews.Checked)),
        ("re-enter-refused-es", ReEnterRefused("safety-officer", ExampleReviews.Checked, "?language=es")),
        ("review-sheet-pre-start", Review("crew-lead", ExampleReviews.Signed, "/sheet/pre-start")),
        ("review-sheet-re-entry-fr", Review("crew-lead", ExampleReviews.Signed, "/sheet/re-entry?language=fr")),
        ("certificate", Review("office", ExampleReviews.Closed, "/certificate")),
    ];

    /// <summary>The names of the pages about rules and plans.</summary>
    public static IEnumerable<string> NamesOfPlans => OfPlans.Select(page => page.Name);

    /// <summary>The names of the pages about reviews.</summary>
    public static IEnumerable<string> NamesOfReviews => OfReviews.Select(page => page.Name);

    /// <summary>Goes to a page.</summary>
    public static Task Go(IPage browser, string name) => OfPlans.Concat(OfReviews).Single(page => page.Name == name).Way(browser);

    private static Func<IPage, Task> At(string path) => browser => browser.GotoAsync(path);

    // As somebody who has told who they are before: what the form of /who keeps, without going there each time.
    private static Func<IPage, Task> As(string role, string path) => async browser =>
    {
        await browser.Context.AddCookiesAsync([Kept("foamrules-name", Convert.ToBase64String("Sam Example"u8)), Kept("foamrules-role", role)]);
        await browser.GotoAsync(path);
    };

    private static Cookie Kept(string name, string value) => new() { Name = name, Value = Uri.EscapeDataString(value), Domain = "127.0.0.1", Path = "/" };

    // The library's own wait for an address can miss the end of a load that came at once, and then waits for ever.
    private static async Task Arrived(IPage browser, string path) =>
        await browser.WaitForFunctionAsync("path => location.pathname.endsWith(path) && document.readyState === 'complete'", path);

    private static Func<IPage, Task> Told(string role, string path) => async browser =>
    {
        await browser.GotoAsync("/who");
        await browser.Locator("#name").FillAsync("Sam Example");
        await browser.Locator($"input[name=role][value={role}]").CheckAsync();
        await browser.Locator("form button").ClickAsync();
        await Arrived(browser, "/reviews");
        await browser.GotoAsync(path);
    };

    // Found in the list, as a person would.
    private static Func<IPage, Task> Review(string role, string plan, string then = "") => async browser =>
    {
        await As(role, $"/reviews?text={Uri.EscapeDataString(plan)}")(browser);
        var address = await browser.Locator(".reviews a").First.GetAttributeAsync("href");
        await browser.GotoAsync(address + then);
    };

    private static Func<IPage, Task> Answer(string plan, int which, string then = "") => async browser =>
    {
        await Review("crew-lead", plan)(browser);
        var address = await browser.Locator(".history a[href*='/pre-start/']").Nth(which).GetAttributeAsync("href");
        await browser.GotoAsync(address + then);
    };

    private static Func<IPage, Task> Refused(string role, string plan) => async browser =>
    {
        await Review(role, plan)(browser);
        await browser.Locator("form[action$='/release'] summary, #holds summary").First.ClickAsync();
        await browser.Locator("form[action$='/release'] button").First.ClickAsync();
        await Arrived(browser, "/release");
    };

    private static Func<IPage, Task> ReEnter(string role, string plan, string then = "") => async browser =>
    {
        await Review(role, plan)(browser);
        var address = await browser.Locator("a[href*='/re-enter/']").First.GetAttributeAsync("href");
        await browser.GotoAsync(address + then);
    };

    // Half an hour after the last foam, with an odour.
    private static Func<IPage, Task> ReEnterRefused(string role, string plan, string then) => async browser =>
    {
        await ReEnter(role, plan, then)(browser);
        await browser.Locator("input[value=trades]").CheckAsync();
        await browser.Locator("input[name$=last_spray_at]").FillAsync(PageSite.Now.AddHours(-6).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture));
        await browser.Locator("input[name$=odour_remains][value=true]").CheckAsync();
        await browser.RunAndWaitForResponseAsync(() => browser.Locator("form.gloves button.first").ClickAsync(), answer => answer.Request.Method == "POST");
        await browser.WaitForLoadStateAsync();
    };

    private static Func<IPage, Task> Pasted(string plan) => async browser =>
    {
        await browser.GotoAsync("/");
        await browser.Locator("#plan").FillAsync(plan);
        await browser.Locator("form[action='/report'] button:not([type=button])").ClickAsync();
        await Arrived(browser, "/report");
    };

    private static Func<IPage, Task> Sent(string path, params (string Field, string Value)[] values) => async browser =>
    {
        await browser.GotoAsync(path);
        foreach (var (field, value) in values)
        {
            await browser.Locator($"input[name='{field}']").FillAsync(value);
        }

        await browser.RunAndWaitForResponseAsync(() => browser.Locator("form.form button.first").ClickAsync(), answer => answer.Request.Method == "POST");
        await browser.WaitForLoadStateAsync();
    };
}
