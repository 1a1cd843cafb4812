namespace FoamRules.Pages.Tests;

/// <summary>A window that was given back has nothing of the page before.</summary>
/// <param name="window">The window.</param>
public sealed class WindowTests(PageWindow window) : IClassFixture<PageWindow>
{
    private const string Kept = "() => [document.cookie, Object.keys(localStorage), Object.keys(sessionStorage), innerWidth].join('|')";

    [Fact]
    public async Task What_one_page_keeps_in_the_browser_the_next_one_does_not_find()
    {
        // The browser asks for an icon that there is not.
        static bool Counts(string complaint) => !complaint.Contains("the server responded with a status of 4", StringComparison.Ordinal);

        var page = await window.Take(Counts);
        await page.GotoAsync("/");
        Assert.Equal("|||1280", await page.EvaluateAsync<string>(Kept));
        await page.EvaluateAsync("() => { document.cookie = 'a=1'; localStorage.setItem('b', 1); sessionStorage.setItem('c', 1); console.error('d') }");
        await page.SetViewportSizeAsync(390, 844);
        Assert.Equal("a=1|b|c|390", await page.EvaluateAsync<string>(Kept));
        Assert.Equal(["d"], window.Complaints);
        await window.Script(false);
        await window.Return();

        Assert.Same(page, await window.Take(Counts));
        await page.GotoAsync("/");
        Assert.Equal("|||1280", await page.EvaluateAsync<string>(Kept));
        Assert.Empty(window.Complaints);
        // Not given back, as where a test fails: the next one is another.
        Assert.NotSame(page, await window.Take(Counts));
    }
}
