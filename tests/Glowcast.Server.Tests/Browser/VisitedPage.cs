using PuppeteerSharp;
using PuppeteerSharp.Input;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page of the service in a browser, with an eye on what it asks for and complains about.</summary>
internal sealed class VisitedPage : IAsyncDisposable
{
    private readonly List<string> complaints = [];
    private readonly List<Uri> asked = [];

    private VisitedPage(IPage tab)
    {
        Tab = tab;
        tab.Console += (_, said) =>
        {
            if (said.Message.Type is ConsoleType.Error or ConsoleType.Warning) complaints.Add(said.Message.Text);
        };
        tab.PageError += (_, error) => complaints.Add(error.Message);
        tab.Request += (_, request) =>
        {
            // Pictures of the browser's own controls lie within the browser.
            if (new Uri(request.Request.Url) is { Scheme: not "data" } address) asked.Add(address);
        };
    }

    public IPage Tab { get; }

    /// <summary>What the browser's console was told of errors and warnings.</summary>
    public IReadOnlyList<string> Complaints => complaints;

    /// <summary>Every address that the page asked for.</summary>
    public IReadOnlyCollection<Uri> Asked => asked;

    public static async Task<VisitedPage> OpenAsync(Chromium chromium, Uri address, int width = 1280, int height = 900, bool isTouch = false)
    {
        var page = new VisitedPage(await chromium.OpenAsync(width, height, isTouch));
        await page.Tab.GoToAsync(address.ToString());
        return page;
    }

    public Task<string> TextAsync(string selector) => Tab.EvaluateFunctionAsync<string>("selector => document.querySelector(selector).textContent", selector);

    public Task<int> CountAsync(string selector) => Tab.EvaluateFunctionAsync<int>("selector => document.querySelectorAll(selector).length", selector);

    /// <summary>Waits until something holds in the page.</summary>
    public Task UntilAsync(string expression) => Tab.WaitForExpressionAsync(expression, new WaitForFunctionOptions { Timeout = 180_000 });

    public async Task UntilDrawnAsync()
    {
        await UntilAsync("document.querySelectorAll('#set-panel .step').length > 0 && !document.body.classList.contains('working')");
        // What has just appeared may change the width of the page, and everything is drawn once more.
        await RestAsync();
    }

    /// <summary>Lets the page draw what it is about to draw.</summary>
    public Task RestAsync() => Tab.EvaluateExpressionAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))");

    /// <summary>Drags what a selector finds by so many pixels, with the mouse.</summary>
    public async Task DragAsync(string selector, double x, double y)
    {
        var from = await MiddleAsync(selector);
        await Tab.Mouse.MoveAsync(from[0], from[1]);
        await Tab.Mouse.DownAsync();
        await Tab.Mouse.MoveAsync(from[0] + (decimal)x, from[1] + (decimal)y, new MoveOptions { Steps = 5 });
        await Tab.Mouse.UpAsync();
        await RestAsync();
    }

    /// <summary>The same with a finger.</summary>
    public async Task TouchAsync(string selector, double x, double y)
    {
        var from = await MiddleAsync(selector);
        await Tab.Touchscreen.TouchStartAsync(from[0], from[1]);
        for (var step = 1; step <= 4; step++) await Tab.Touchscreen.TouchMoveAsync(from[0] + (decimal)(x * step / 4), from[1] + (decimal)(y * step / 4));
        await Tab.Touchscreen.TouchEndAsync();
        await RestAsync();
    }

    /// <summary>Lets a file fall on the middle of the page, as one that was dragged there from another window.</summary>
    public async Task DropFileAsync(string folder, string name, byte[] content)
    {
        var data = new { items = Array.Empty<object>(), files = new[] { await FileAsync(folder, name, content) }, dragOperationsMask = 1 };
        foreach (var type in (string[])["dragEnter", "dragOver", "drop"])
            await Tab.Client.SendAsync("Input.dispatchDragEvent", new { type, x = Tab.Viewport.Width / 2, y = 300, data });
    }

    /// <summary>Chooses a file in the page's own input for them.</summary>
    public async Task ChooseFileAsync(string folder, string name, byte[] content) =>
        await (await Tab.QuerySelectorAsync("#grid-file")).UploadFileAsync(await FileAsync(folder, name, content));

    /// <summary>Makes a file to be dropped or chosen.</summary>
    public static async Task<string> FileAsync(string folder, string name, byte[] content)
    {
        var path = Path.Combine(Directory.CreateDirectory(Path.Combine(folder, "outside")).FullName, name);
        await File.WriteAllBytesAsync(path, content, TestContext.Current.CancellationToken);
        return path;
    }

    /// <summary>Presses a key while another is held.</summary>
    public async Task PressAsync(string key, string held)
    {
        await Tab.Keyboard.DownAsync(held);
        await Tab.Keyboard.PressAsync(key);
        await Tab.Keyboard.UpAsync(held);
    }

    /// <summary>Puts a slider to a value, as a hand would.</summary>
    public Task SlideAsync(string selector, double value) => Tab.EvaluateFunctionAsync(
        "(selector, value) => { const slider = document.querySelector(selector); slider.value = value; slider.dispatchEvent(new Event('input')); slider.dispatchEvent(new Event('change')); }", selector, value);

    /// <summary>Replaces what stands in an input.</summary>
    public async Task TypeAsync(string selector, string text)
    {
        await Tab.EvaluateFunctionAsync("selector => document.querySelector(selector).select()", selector);
        await Tab.Keyboard.PressAsync("Backspace");
        await Tab.TypeAsync(selector, text);
    }

    /// <summary>How many colours a canvas has, how bright it is in the mean, 0 to 255, and how far its brightness strays from that (standard deviation).</summary>
    /// <param name="from">Where to begin, as a share of its height from the top.</param>
    public Task<CanvasLook> LookAsync(string selector, double from = 0) => Tab.EvaluateFunctionAsync<CanvasLook>(
        """
        (selector, from) => {
          const canvas = document.querySelector(selector);
          const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d', { willReadFrequently: true });
          copy.drawImage(canvas, 0, 0);
          const { data } = copy.getImageData(0, Math.floor(from * canvas.height), canvas.width, Math.ceil((1 - from) * canvas.height));
          const colours = new Set();
          let [sum, squares] = [0, 0];
          for (let i = 0; i < data.length; i += 4) {
            colours.add((data[i] << 16) | (data[i + 1] << 8) | data[i + 2]);
            const bright = (data[i] + data[i + 1] + data[i + 2]) / 3;
            sum += bright;
            squares += bright * bright;
          }
          const brightness = 4 * sum / data.length;
          return { colours: colours.size, brightness, spread: Math.sqrt(4 * squares / data.length - brightness * brightness) };
        }
        """, selector, from);

    private Task<decimal[]> MiddleAsync(string selector) => Tab.EvaluateFunctionAsync<decimal[]>(
        """
        selector => {
          const element = document.querySelector(selector);
          element.scrollIntoView({ block: 'center', behavior: 'instant' });
          const box = element.getBoundingClientRect();
          return [box.left + box.width / 2, box.top + box.height / 2];
        }
        """, selector);

    public async ValueTask DisposeAsync() => await Tab.DisposeAsync();
}

internal sealed record CanvasLook(int Colours, double Brightness, double Spread);
