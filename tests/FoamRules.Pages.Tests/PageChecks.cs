using FoamRules.Testing;
using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>What must hold of every page in a browser.</summary>
internal static class PageChecks
{
    // For looking at them: FOAMRULES_PICTURES names a folder.
    private static readonly string? Folder = Environment.GetEnvironmentVariable("FOAMRULES_PICTURES") is { Length: > 0 } folder ? folder : null;

    private static readonly Lazy<string> Axe = new(() => File.ReadAllText(Repository.PathOf("tests", "node", "node_modules", "axe-core", "axe.min.js")));

    /// <summary>Nothing stands beyond the edge, and axe-core finds nothing, whatever its level.</summary>
    public static async Task Holds(IPage page, string name)
    {
        if (Folder is not null)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(Folder, $"{name}.png"), FullPage = true });
        }

        Assert.Equal(0, await page.EvaluateAsync<int>("Math.max(0, document.documentElement.scrollWidth - document.documentElement.clientWidth)"));
        Assert.SkipUnless(File.Exists(Repository.PathOf("tests", "node", "node_modules", "axe-core", "axe.min.js")), "axe-core is not installed: npm ci in tests/node");
        await page.EvaluateAsync(Axe.Value);
        Assert.Empty(await page.EvaluateAsync<string[]>("async () => (await axe.run({ resultTypes: ['violations'] })).violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.html} ${n.failureSummary}`))"));
    }

    /// <summary>Everything that can be pressed is reached by Tab, and shows it.</summary>
    public static async Task Keyboard(IPage page)
    {
        var all = await page.EvaluateAsync<int>("""
            () => {
              window.stops = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(e => e.checkVisibility() && e.type !== 'hidden' && !e.disabled)
              // A group of radio buttons is one stop.
              window.stops = window.stops.filter(e => e.type !== 'radio' || e.checked || (!document.querySelector(`input[name="${e.name}"]:checked`) && e === document.querySelector(`input[name="${e.name}"]`)))
              document.activeElement?.blur()
              window.reached = new Set()
              document.addEventListener('focusin', event => {
                const style = getComputedStyle(event.target)
                window.reached.add(style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2 ? -1 : window.stops.indexOf(event.target))
              })
              return window.stops.length
            }
            """);
        int[] reached = [];
        // A date has stops inside itself, for its day, month and year: a second round for those.
        for (var round = 0; round < 2 && reached.Length < all; round++)
        {
            // All are on their way at once, in their order: an answer to each before the next would take most of the time.
            await Task.WhenAll(Enumerable.Range(0, all).Select(_ => page.Keyboard.PressAsync("Tab")));
            reached = await page.EvaluateAsync<int[]>("[...window.reached]");
        }

        Assert.DoesNotContain(-1, reached);
        Assert.Equal(all, reached.Length);
    }

    /// <summary>It prints, on either paper.</summary>
    public static async Task Prints(IPage page, string name)
    {
        foreach (var paper in new[] { "A4", "Letter" })
        {
            var pdf = await page.PdfAsync(new() { Format = paper, PrintBackground = false, Path = Folder is null ? null : Path.Combine(Folder, $"{name}-{paper}.pdf") });
            Assert.Equal("%PDF"u8, pdf.AsSpan(0, 4));
        }
    }
}
