using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests.Browser;

/// <summary>How long the page takes to show another minute, by the browser's own clock. Asserts nothing of time; run it when told to, on a quiet machine
/// (docs/performance.md has the command).</summary>
[Trait("Category", "Browser")]
public class RedrawTimes(Chromium chromium, ITestOutputHelper output)
{
    private const double FrameMs = 1000 / 60.0;

    /// <summary>What is measured of each minute of the day, one a frame: the script that redraws, all that the main thread does for the frame (script,
    /// style, layout, paint, and handing over to the compositor), and how long after the frame before this one began.</summary>
    private const string EveryMinute =
        """
        async () => {
          const slider = document.getElementById('minute');
          const longFrames = [];
          new PerformanceObserver(list => longFrames.push(...list.getEntries())).observe({ type: 'long-animation-frame' });
          const frame = () => new Promise(done => requestAnimationFrame(done));
          const { port1, port2 } = new MessageChannel();
          const rendered = () => new Promise(done => { port1.onmessage = () => done(performance.now()); port2.postMessage(0); });
          const [script, thread, interval] = [[], [], []];
          let before = await frame();
          for (let minute = 0; minute <= Number(slider.max); minute++) {
            const began = await frame();
            const from = performance.now();
            slider.value = minute;
            slider.dispatchEvent(new Event('input'));
            script.push(performance.now() - from);
            thread.push(await rendered() - from);
            interval.push(began - before);
            before = began;
          }
          return { script, thread, interval, longFrames: longFrames.length };
        }
        """;

    [Fact(Explicit = true, SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task Every_minute_of_a_day_in_a_picture_of_1600_pixels()
    {
        var plan = JsonNode.Parse(await File.ReadAllTextAsync(Sample("demo-plan.json"), TestContext.Current.CancellationToken))!;
        // At a twentieth of a degree to a pixel.
        (plan["span"]!["fromDeg"], plan["span"]!["toDeg"]) = (245, 325);
        await using var stream = File.OpenRead(Sample("N46W032.hgt"));
        await using var service = await Service.StartAsync(new ServerOptions
        {
            Grids = new Dictionary<string, ElevationGrid> { ["N46W032.hgt"] = GridFile.Read(stream, "N46W032.hgt") },
            DemoPlan = JsonSerializer.SerializeToElement(plan),
        });
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(service.Urls.Single()), 1440);
        await page.UntilDrawnAsync();
        Assert.Equal(1600, await page.Tab.EvaluateExpressionAsync<int>("document.querySelector('#ridge-panel canvas').width"));

        // The first day warms the script up, and is reported too.
        foreach (var day in (string[])["first", "second", "third"])
        {
            var times = await page.Tab.EvaluateFunctionAsync<Times>(EveryMinute);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{day} day of {times.Script.Length} minutes: script {Said(times.Script)}; main thread {Said(times.Thread)}; frame to frame {Said(times.Interval)}; {times.LongFrames} long frames"));
        }
        Assert.Empty(page.Complaints);
    }

    private static string Said(double[] ms)
    {
        var sorted = ms.Order().ToArray();
        var (median, nearlyAll, worst) = (sorted[sorted.Length / 2], sorted[sorted.Length * 99 / 100], sorted[^1]);
        return string.Create(CultureInfo.InvariantCulture,
            $"median {median:0.0} ms ({median / FrameMs:P0} of a frame), 99 of 100 under {nearlyAll:0.0} ms ({nearlyAll / FrameMs:P0}), worst {worst:0.0} ms ({worst / FrameMs:P0})");
    }

    private static string Sample(string name, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "terrain-samples", name);

    private sealed record Times(double[] Script, double[] Thread, double[] Interval, int LongFrames);
}
