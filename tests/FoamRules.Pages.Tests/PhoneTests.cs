namespace FoamRules.Pages.Tests;

/// <summary>Every page on a phone, with script and without. Beside those of a desk, so that both cores are used.</summary>
/// <param name="site">The pages and the browser.</param>
public sealed class PhoneTests(PageSite site)
{
    public static TheoryData<string> Pages { get; } = [.. SitePages.Names];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_holds_on_a_phone_and_without_script(string name)
    {
        var phone = await site.Open(390, 844);
        await SitePages.Go(phone, name);
        await PageChecks.Holds(phone, $"{name}-phone");
        await phone.Context.CloseAsync();
        var page = await site.Open(390, 844, script: false);
        await SitePages.Go(page, name);
        Assert.NotEqual("", await page.Locator("main h1").First.InnerTextAsync());
        Assert.NotEqual("", await page.Locator("footer.cautions").InnerTextAsync());
        Assert.Equal(0, await page.Locator("[data-print]:visible").CountAsync());
        await page.Context.CloseAsync();
    }
}
