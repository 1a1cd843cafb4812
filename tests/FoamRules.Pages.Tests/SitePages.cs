using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>Every page, and the way to it. A new page joins by a line: each test of all pages then takes it in.</summary>
public static class SitePages
{
    private static readonly (string Name, Func<IPage, Task> Way)[] All =
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
        ("report-own", Pasted("name: Two posts\nstage: quote\nareas: [{ id: hall, enclosure: interior }]\nproducts: [{ id: foam, kind: closed-cell-pour }]\nwork: [{ id: posts, area: hall, product: foam, cavity_fill: { count: 2 } }]\n")),
        ("plan-refused", Pasted("name: Broken\nstage: never\nwork:\n  - id: a\n    thickness: 4\n")),
    ];

    /// <summary>The names of all pages.</summary>
    public static IEnumerable<string> Names => All.Select(page => page.Name);

    /// <summary>Goes to a page.</summary>
    public static Task Go(IPage browser, string name) => All.First(page => page.Name == name).Way(browser);

    private static Func<IPage, Task> At(string path) => browser => browser.GotoAsync(path);

    private static Func<IPage, Task> Pasted(string plan) => async browser =>
    {
        await browser.GotoAsync("/");
        await browser.Locator("#plan").FillAsync(plan);
        await browser.Locator("form[action='/report'] button:not([type=button])").ClickAsync();
        await browser.WaitForURLAsync("**/report");
    };
}
