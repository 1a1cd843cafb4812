using FoamRules.Testing;
using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>Every page in a browser: on a phone and on a desk, for those who cannot see, without script, on paper, in each language.</summary>
/// <param name="site">The pages and the browser.</param>
public sealed class BrowserTests(PageSite site)
{
    // For looking at them: FOAMRULES_PICTURES names a folder.
    private static readonly string? Folder = Environment.GetEnvironmentVariable("FOAMRULES_PICTURES") is { Length: > 0 } folder ? folder : null;

    public static TheoryData<string> Pages { get; } = [.. SitePages.Names];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_holds_on_a_desk_by_keyboard_and_on_paper(string name)
    {
        var page = await site.Open();
        var complaints = Complaints(page);
        await SitePages.Go(page, name);
        await Holds(page, $"{name}-desk");
        Assert.Empty(complaints);
        await Keyboard(page);
        foreach (var paper in new[] { "A4", "Letter" })
        {
            var pdf = await page.PdfAsync(new() { Format = paper, PrintBackground = false, Path = Folder is null ? null : Path.Combine(Folder, $"{name}-{paper}.pdf") });
            Assert.Equal("%PDF"u8, pdf.AsSpan(0, 4));
        }

        await page.Context.CloseAsync();
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_holds_on_a_phone_and_without_script(string name)
    {
        var phone = await site.Open(390, 844);
        await SitePages.Go(phone, name);
        await Holds(phone, $"{name}-phone");
        await phone.Context.CloseAsync();
        var page = await site.Open(390, 844, script: false);
        await SitePages.Go(page, name);
        Assert.NotEqual("", await page.Locator("main h1").First.InnerTextAsync());
        Assert.NotEqual("", await page.Locator("footer.cautions").InnerTextAsync());
        Assert.Equal(0, await page.Locator("[data-print]:visible").CountAsync());
        await page.Context.CloseAsync();
    }

    // Nothing stands beyond the edge, and axe-core finds nothing, whatever its level.
    private static async Task Holds(IPage page, string name)
    {
        await Keep(page, name);
        Assert.Equal(0, await page.EvaluateAsync<int>("Math.max(0, document.documentElement.scrollWidth - document.documentElement.clientWidth)"));
        var axe = Repository.PathOf("tests", "node", "node_modules", "axe-core", "axe.min.js");
        Assert.SkipUnless(File.Exists(axe), "axe-core is not installed: npm ci in tests/node");
        await page.EvaluateAsync(await File.ReadAllTextAsync(axe));
        Assert.Empty(await page.EvaluateAsync<string[]>("async () => (await axe.run()).violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.html} ${n.failureSummary}`))"));
    }

    // Everything that can be pressed is reached by Tab, and shows it.
    private static async Task Keyboard(IPage page)
    {
        var all = await page.EvaluateAsync<int>("""
            () => {
              window.stops = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(e => e.checkVisibility() && e.type !== 'hidden' && !e.disabled)
              // A group of radio buttons is one stop.
              window.stops = window.stops.filter(e => e.type !== 'radio' || e.checked || (!document.querySelector(`input[name="${e.name}"]:checked`) && e === document.querySelector(`input[name="${e.name}"]`)))
              document.activeElement?.blur()
              return window.stops.length
            }
            """);
        var reached = new HashSet<int>();
        // A date has stops inside itself, for its day, month and year.
        for (var i = 0; i < all * 2 && reached.Count < all; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            reached.Add(await page.EvaluateAsync<int>("""
                () => {
                  const at = document.activeElement, style = getComputedStyle(at)
                  if (at === document.body) return 0
                  return style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2 ? -1 : window.stops.indexOf(at)
                }
                """));
        }

        Assert.DoesNotContain(-1, reached);
        Assert.Equal(all, reached.Count);
    }

    // What a browser writes into its console. That a refused form answers 4xx is meant.
    private static List<string> Complaints(IPage page)
    {
        var complaints = new List<string>();
        page.PageError += (_, error) => complaints.Add(error);
        page.Console += (_, message) =>
        {
            if (!message.Text.Contains("the server responded with a status of 4", StringComparison.Ordinal))
            {
                complaints.Add(message.Text);
            }
        };
        return complaints;
    }

    private static async Task Keep(IPage page, string name)
    {
        if (Folder is not null)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(Folder, $"{name}.png"), FullPage = true });
        }
    }
}
