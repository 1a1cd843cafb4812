using Microsoft.Playwright;

namespace FoamRules.Pages.Tests;

/// <summary>
/// One window of the browser for all pages of a class: a new one for each would start a process each time, which reads axe-core anew. Nothing of a
/// page is there at the next: cookies and what is kept in the browser are gone. A test that fails does not give it back, and the next one opens another.
/// </summary>
/// <param name="site">The pages and the browser.</param>
public sealed class PageWindow(PageSite site) : IAsyncDisposable
{
    private readonly List<string> _complaints = [];
    private Func<string, bool> _counts = _ => true;
    private IPage? _page;
    private ICDPSession? _session;
    private bool _whole;

    /// <summary>What the browser has written into its console since the window was taken.</summary>
    public IReadOnlyList<string> Complaints => _complaints;

    /// <summary>The window as if it were new, on a desk.</summary>
    /// <param name="counts">Which words in the console count as a complaint.</param>
    public async Task<IPage> Take(Func<string, bool> counts)
    {
        if (_page is null || !_whole)
        {
            await DisposeAsync();
            _page = await site.Open();
            _page.PageError += (_, error) => _complaints.Add(error);
            _page.Console += (_, message) => Heard(message.Text);
            _session = await _page.Context.NewCDPSessionAsync(_page);
        }
        else
        {
            await _page.SetViewportSizeAsync(1280, 900);
        }

        _whole = false;
        _complaints.Clear();
        _counts = counts;
        return _page;
    }

    /// <summary>Whether scripts run, from the next load on.</summary>
    public Task Script(bool runs) => _session!.SendAsync("Emulation.setScriptExecutionDisabled", new() { ["value"] = !runs });

    /// <summary>Gives it back, with all that a page has left in it taken away.</summary>
    public async Task Return()
    {
        await Script(true);
        await _page!.EvaluateAsync("sessionStorage.clear()");
        await _page.GotoAsync("about:blank");
        await _page.Context.ClearCookiesAsync();
        await _session!.SendAsync("Storage.clearDataForOrigin", new() { ["origin"] = site.Address.GetLeftPart(UriPartial.Authority), ["storageTypes"] = "all" });
        _whole = true;
    }

    public async ValueTask DisposeAsync()
    {
        if (_page is not null)
        {
            await _page.Context.CloseAsync();
            _page = null;
        }
    }

    private void Heard(string text)
    {
        if (_counts(text))
        {
            _complaints.Add(text);
        }
    }
}
