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
        // The same page once more; that the ways between pages need no script either is for ReviewTests.
        var session = await phone.Context.NewCDPSessionAsync(phone);
        await session.SendAsync("Emulation.setScriptExecutionDisabled", new() { ["value"] = true });
        await phone.ReloadAsync();
        Assert.NotEqual("", await phone.Locator("main h1").First.InnerTextAsync());
        Assert.NotEqual("", await phone.Locator("footer.cautions").InnerTextAsync());
        Assert.Equal(0, await phone.Locator("[data-print]:visible").CountAsync());
        await phone.Context.CloseAsync();
    }
}
