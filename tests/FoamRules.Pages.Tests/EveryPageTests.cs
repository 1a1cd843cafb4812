namespace FoamRules.Pages.Tests;

/// <summary>Every page: on a desk, by keyboard, on paper, on a phone, and without script.</summary>
/// <param name="window">The window in which they are looked at.</param>
public abstract class EveryPageTests(PageWindow window)
{
    protected async Task Holds(string name)
    {
        // A page that says how the service failed is answered with that status; that a refused form answers 4xx is meant.
        var page = await window.Take(complaint => !complaint.Contains($"the server responded with a status of {(name.StartsWith("failed", StringComparison.Ordinal) ? "" : "4")}", StringComparison.Ordinal));
        await SitePages.Go(page, name);
        await PageChecks.Holds(page, $"{name}-desk");
        Assert.Empty(window.Complaints);
        await PageChecks.Keyboard(page);
        await PageChecks.Prints(page, name);

        // Loaded anew, and not only made narrower.
        await page.SetViewportSizeAsync(390, 844);
        await page.ReloadAsync();
        await PageChecks.Holds(page, $"{name}-phone");
        Assert.Empty(window.Complaints);

        // The same page once more; that the ways between pages need no script either is for ReviewTests.
        await window.Script(false);
        await page.ReloadAsync();
        Assert.NotEqual("", await page.Locator("main h1").First.InnerTextAsync());
        Assert.NotEqual("", await page.Locator("footer.cautions").InnerTextAsync());
        Assert.Equal(0, await page.Locator("[data-print]:visible").CountAsync());
        await window.Return();
    }
}

/// <summary>The pages about rules and plans.</summary>
/// <param name="window">The window in which they are looked at.</param>
public sealed class PlanPageTests(PageWindow window) : EveryPageTests(window), IClassFixture<PageWindow>
{
    public static TheoryData<string> Pages { get; } = [.. SitePages.NamesOfPlans];

    [Theory]
    [MemberData(nameof(Pages))]
    public Task A_page_holds_on_a_desk_on_paper_and_on_a_phone_with_script_and_without(string name) => Holds(name);
}

/// <summary>The pages about reviews; beside those about plans, so that both cores are used.</summary>
/// <param name="window">The window in which they are looked at.</param>
public sealed class ReviewPageTests(PageWindow window) : EveryPageTests(window), IClassFixture<PageWindow>
{
    public static TheoryData<string> Pages { get; } = [.. SitePages.NamesOfReviews];

    [Theory]
    [MemberData(nameof(Pages))]
    public Task A_page_holds_on_a_desk_on_paper_and_on_a_phone_with_script_and_without(string name) => Holds(name);
}
