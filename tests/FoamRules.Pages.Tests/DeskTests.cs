using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>Every page on a desk: for those who cannot see, by keyboard, on paper, in each language.</summary>
/// <param name="site">The pages and the browser.</param>
public sealed class DeskTests(PageSite site)
{
    public static TheoryData<string> Pages { get; } = [.. SitePages.Names];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_holds_on_a_desk_by_keyboard_and_on_paper(string name)
    {
        var page = await site.Open();
        // A page that says how the service failed is answered with that status.
        var complaints = Complaints(page, expected: name.StartsWith("failed", StringComparison.Ordinal) ? "" : "4");
        await SitePages.Go(page, name);
        await PageChecks.Holds(page, $"{name}-desk");
        Assert.Empty(complaints);
        await PageChecks.Keyboard(page);
        await PageChecks.Prints(page, name);
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData("en")]
    [InlineData("es")]
    [InlineData("fr")]
    public async Task A_sign_fills_one_page_for_each_way_in_on_either_paper(string language)
    {
        var page = await site.Open();
        await page.GotoAsync($"/sheet/re-entry?example=cold-store-dock&language={language}");
        var signs = await page.Locator(".door-sign").CountAsync();
        Assert.Equal(2, signs);
        foreach (var paper in new[] { "A4", "Letter" })
        {
            var pdf = Encoding.Latin1.GetString(await page.PdfAsync(new() { Format = paper }));
            Assert.Equal((paper, signs), (paper, Regex.Count(pdf, "/Type /Page\\b(?!s)")));
        }

        await page.Context.CloseAsync();
    }

    // What a browser writes into its console. That a refused form answers 4xx is meant.
    private static List<string> Complaints(IPage page, string expected = "4")
    {
        var complaints = new List<string>();
        page.PageError += (_, error) => complaints.Add(error);
        page.Console += (_, message) =>
        {
            if (!message.Text.Contains($"the server responded with a status of {expected}", StringComparison.Ordinal))
            {
                complaints.Add(message.Text);
            }
        };
        return complaints;
    }
}
