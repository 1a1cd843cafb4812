using System.Text;
using System.Text.RegularExpressions;

namespace FoamRules.Pages.Tests;

/// <summary>The sign for the door, on paper.</summary>
/// <param name="site">The pages and the browser.</param>
public sealed class SignTests(PageSite site)
{
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
}
