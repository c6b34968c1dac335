using PuppeteerSharp;

[assembly: AssemblyFixture(typeof(Glowcast.Server.Tests.Browser.Chromium))]

namespace Glowcast.Server.Tests.Browser;

/// <summary>A real browser, started when the first test asks for it.</summary>
public sealed class Chromium : IAsyncDisposable, INeed
{
    public static string Missing => "no Chromium on this machine";

    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private readonly Lazy<Task<IBrowser>> browser = new(() => Puppeteer.LaunchAsync(new LaunchOptions { ExecutablePath = Path, Args = Arguments }));

    public static bool IsPresent => Path is not null;

    private static string? Path { get; } = Find();

    /// <summary>A page of a visitor who has never been here: without anything kept.</summary>
    public async Task<IPage> OpenAsync(int width = 1280, int height = 900, bool isTouch = false)
    {
        var visitor = await (await browser.Value).CreateBrowserContextAsync();
        var page = await visitor.NewPageAsync();
        await page.SetViewportAsync(new ViewPortOptions { Width = width, Height = height, HasTouch = isTouch });
        return page;
    }

    /// <summary>A page of a visitor who is known here: nothing can be installed from a private one.</summary>
    public async Task<IPage> OpenKnownAsync() => await (await browser.Value).NewPageAsync();

    public async ValueTask DisposeAsync()
    {
        if (browser.IsValueCreated) await (await browser.Value).DisposeAsync();
    }

    private static string? Find()
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator);
        var candidates = from folder in folders from name in Names select System.IO.Path.Combine(folder, name);
        return candidates.Prepend(Environment.GetEnvironmentVariable("CHROME_BIN") ?? "").FirstOrDefault(File.Exists);
    }
}
