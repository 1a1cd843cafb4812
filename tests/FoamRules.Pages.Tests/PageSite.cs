using System.Collections.Concurrent;
using FoamRules.Pages.Tests;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using FoamRules.Service;
using FoamRules.Testing;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Serilog.Core;
using Serilog.Events;

[assembly: AssemblyFixture(typeof(PageSite))]

namespace FoamRules.Pages.Tests;

/// <summary>The service with its pages on a free port, and one browser for all tests.</summary>
public sealed class PageSite : IAsyncLifetime
{
    /// <summary>What the service's clock says.</summary>
    public static readonly DateTimeOffset Now = new(2026, 4, 10, 14, 0, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();
    private WebApplication? _service;
    private IPlaywright? _playwright;
    private Task<IBrowser>? _browser;

    /// <summary>What the log has of what was thrown.</summary>
    public ConcurrentQueue<LogEvent> Thrown { get; } = new();

    /// <summary>The address of the pages.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>What stands on record.</summary>
    public RecordStore Store { get; private set; } = null!;

    /// <summary>The acts on reviews, without the pages.</summary>
    public ReviewDesk Desk => _service!.Services.GetRequiredService<ReviewDesk>();

    /// <summary>A client that keeps cookies and follows no redirect.</summary>
    public HttpClient Client { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        var clock = new StandingClock();
        Store = RecordStore.At(Path.Combine(_folder.Path, "records.db"), clock);
        await Store.Prepare(CancellationToken.None);
        _service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, WebPort = 0, Log = new Kept(Thrown), Clock = clock, Records = Store });
        Failing.Map(_service);
        await _service.StartAsync();
        Address = new Uri(_service.Urls.Last());
        Client = NewClient();
        await ExampleReviews.Prepare(Desk);
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null && _playwright is not null)
        {
            await (await _browser).DisposeAsync();
        }

        _playwright?.Dispose();
        Client.Dispose();
        await _service!.StopAsync();
        await _service.DisposeAsync();
        _folder.Dispose();
    }

    /// <summary>A client of its own cookies.</summary>
    public HttpClient NewClient() => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false }) { BaseAddress = Address };

    /// <summary>A browser page of its own cookies; skips the test where no browser is found.</summary>
    /// <param name="width">The width.</param>
    /// <param name="height">The height.</param>
    /// <param name="script">Whether scripts run.</param>
    public async Task<IPage> Open(int width = 1280, int height = 900, bool script = true)
    {
        var found = new[] { Environment.GetEnvironmentVariable("FOAMRULES_CHROMIUM"), "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.FirstOrDefault(File.Exists);
        Assert.SkipWhen(found is null, "no chromium is found; FOAMRULES_CHROMIUM may name one");
        var browser = await Launched(found!);
        var context = await browser.NewContextAsync(new() { BaseURL = Address.ToString(), ViewportSize = new() { Width = width, Height = height }, JavaScriptEnabled = script, Locale = "en-US" });
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(120_000);
        return page;
    }

    private Task<IBrowser> Launched(string chromium)
    {
        lock (this)
        {
            return _browser ??= Launch(chromium);
        }
    }

    private async Task<IBrowser> Launch(string chromium)
    {
        _playwright = await Playwright.CreateAsync();
        return await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = chromium, Args = ["--no-sandbox"] });
    }

    private sealed class Kept(ConcurrentQueue<LogEvent> events) : ILogEventSink
    {
        public void Emit(LogEvent logEvent)
        {
            if (logEvent.Exception is not null)
            {
                events.Enqueue(logEvent);
            }
        }
    }

    // The same day for every run: a page that shows a time is the same page.
    private sealed class StandingClock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => Now;
    }
}
