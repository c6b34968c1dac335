using System.Text.Json;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page's thinking, module by module, run where it runs: in a browser.</summary>
[Trait("Category", "Browser")]
public class ModuleTests(Service service, Chromium chromium)
{
    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task A_bearing_scale_crosses_north_and_reaches_a_little_beyond_its_span() => Same(
        [100, 250, 400, 50, 5, 345],
        await NumbersAsync(
            """
            const { bearingScale } = await import('/think/scales.js');
            const scale = bearingScale(350, 30, 100, 400);
            return [scale.toPx(350), scale.toPx(5), scale.toPx(20), scale.toPx(345), scale.toDeg(250), scale.toDeg(50)];
            """));

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task Time_scales_turn_back_and_ticks_fall_on_multiples() => Same(
        [240, 450, 600, 250, 255, 260, -5, 0, 5, 5],
        await NumbersAsync(
            """
            const { timeScale, multiples, stepFor } = await import('/think/scales.js');
            const scale = timeScale(300, 900, 0, 960);
            return [scale.toPx(450), scale.toS(240), scale.toS(480), ...multiples(248, 262, 5), ...multiples(-5, 5, 5), stepFor(74, 20, [1, 2, 5, 10])];
            """));

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task Distances_come_out_as_the_service_puts_them_in()
    {
        // 0 is sky; n stands for 10 m × exp(n / 6000).
        var numbers = await NumbersAsync(
            $"const {{ distancesOf }} = await import('/think/bytes.js'); return [...distancesOf('{Convert.ToBase64String([0, 0, 1, 0, 0x70, 0x17, 0xff, 0xff])}')];");
        Assert.Equal(0, numbers[0]);
        Assert.Equal(10 * Math.Exp(1 / 6000.0), numbers[1], 1e-5);
        Assert.Equal(10 * Math.E, numbers[2], 1e-5);
        Assert.Equal(10 * Math.Exp(65535 / 6000.0), numbers[3], 0.1);
    }

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task Shares_of_stretches_are_steps()
    {
        // Three members, lit 0–10, 5–20 and 8–12: two of three from 5 to 12, all three from 8 to 10, one of them to 20.
        Same(
            [5, 12, 8, 10, 0, 20],
            await NumbersAsync(
                """
                const { whenAtLeast, stretchesOf } = await import('/think/stretches.js');
                const members = [[0, 10], [5, 20], [8, 12]].map(stretchesOf);
                return [0.6, 1, 0.3].flatMap(share => whenAtLeast(members, share, 30)).flatMap(s => [s.startS, s.endS]);
                """));
        Same(
            [2, 3, 8, 9, 9.5, 10],
            await NumbersAsync(
                """
                const { common, stretchesOf } = await import('/think/stretches.js');
                return common(stretchesOf([0, 3, 8, 10]), stretchesOf([2, 9, 9.5, 12])).flatMap(s => [s.startS, s.endS]);
                """));
    }

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task Clocks_show_local_time_on_both_sides_of_a_change_and_the_sun_s_without_a_zone() => Assert.Equal(
        ["01:59:59", "03:00:00", "01:59", "11:00:00"],
        await AskAsync<string[]>(
            """
            const { localClock } = await import('/think/clock.js');
            const zurich = localClock('Europe/Zurich', 8.5);
            const change = Date.parse('2026-03-29T01:00:00Z');
            return [zurich.hms(change - 1000), zurich.hms(change), zurich.hm(change - 1), localClock(null, -15).hms(Date.parse('2026-03-29T12:00:00Z'))];
            """));

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task A_frame_bulges_as_a_straight_line_camera_sees_it()
    {
        // A level frame of 40° × 30°: its upper edge is the curve tan φ = tan 15° · cos Δ, its sides stand at ±20°.
        var outline = await NumbersAsync(
            "const { frameOutline } = await import('/think/outline.js'); return frameOutline(0, 0, 40, 30).flat();");
        var corner = double.RadiansToDegrees(Math.Atan(Math.Tan(double.DegreesToRadians(15)) * Math.Cos(double.DegreesToRadians(20))));
        Assert.Equal(340, outline[0], 1e-9);
        Assert.Equal(corner, outline[1], 1e-9);
        var altitudes = outline.Where((_, i) => i % 2 == 1).ToList();
        Assert.Equal(15, altitudes.Max(), 1e-9);
        Assert.Equal(-15, altitudes.Min(), 1e-9);
    }

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task What_is_typed_becomes_what_a_plan_has() => Assert.Equal(
        """[null,12.5,-3,"long","2026-10-20",{"a":1,"b":{"c":2}},{"b":{"c":2}}]""",
        (await AskAsync<JsonElement>(
            """
            const { typed, withValue } = await import('/think/plan.js');
            const number = { kind: 'number' };
            return [typed(' ', number), typed('12,5', number), typed('-3', number), typed('long', number), typed('2026-10-20', { kind: 'date' }),
              withValue({ a: 1 }, 'b.c', 2), withValue(null, 'b.c', 2)];
            """)).GetRawText());

    [Theory(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    [InlineData(0.9, 0)]
    [InlineData(0.5, 1)]
    public async Task The_page_judges_a_start_as_the_engine_does(double columnsLit, int repeats)
    {
        var plan = MadeValley.Plan();
        plan["thresholds"] = new JsonObject { ["columnsLit"] = columnsLit };
        plan["set"]!["repeats"] = repeats;
        var answer = await service.PostPlanAsync(plan, "?pictures=true").JsonAsync();
        Assert.Equal("fits", answer["fit"]!["verdict"]!.GetValue<string>());

        // At both ends of what the engine allows every exposure has its light; two seconds beyond them one has not.
        var missing = await NumbersAsync(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { secondsAt } = await import('/think/chart.js');
            const { stairAt } = await import('/think/stair.js');
            const { chart, windows, set } = forecastOf(answer, {});
            const at = name => secondsAt(chart, Date.parse(answer.fit[name]));
            return [at('earliestStart'), at('latestStart'), at('earliestStart') - 2, at('latestStart') + 2]
              .map(startS => stairAt(chart, windows, set, startS).filter(step => step.problem).length);
            """, answer);
        Assert.Equal([0, 0], missing[..2]);
        Assert.All(missing[2..], count => Assert.True(count > 0));
    }

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task The_page_finds_the_same_first_problem_as_the_engine()
    {
        var plan = MadeValley.Plan();
        plan["set"]!["repeats"] = 50;
        plan["set"]!["settleS"] = 60;
        var answer = await service.PostPlanAsync(plan, "?pictures=true").JsonAsync();
        var expected = answer["fit"]!["firstProblem"]!;

        var found = await AskAsync<JsonElement>(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { stairAt } = await import('/think/stair.js');
            const { chart, windows, set, startS } = forecastOf(answer, {});
            const first = stairAt(chart, windows, set, startS).find(step => step.problem);
            return { set: first.exposure.set, frame: first.frame, problem: first.problem };
            """, answer);
        Assert.Equal(expected["set"]!.GetValue<int>(), found.GetProperty("set").GetInt32());
        Assert.Equal(expected["frame"]!.GetValue<int>(), found.GetProperty("frame").GetInt32());
        Assert.Equal(expected["problem"]!.GetValue<string>(), found.GetProperty("problem").GetString());
    }

    [Fact(SkipUnless = nameof(Chromium.IsPresent), SkipType = typeof(Chromium), Skip = Chromium.Missing)]
    public async Task The_picture_is_lit_where_its_patches_are_and_ground_faces_the_eye()
    {
        var answer = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync();
        var found = await NumbersAsync(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { lightOfPatches } = await import('/think/patches.js');
            const { spread } = await import('/think/patch-map.js');
            const { chart, scene, startS } = forecastOf(answer, {});
            const { raster, normals } = scene;
            const mean = minute => {
              const light = spread(scene.map, lightOfPatches(chart, scene.patches, minute));
              return light.reduce((sum, value) => sum + value, 0) / raster.distances.filter(d => d > 0).length;
            };
            let turnedAway = 0;
            for (let y = 0; y < raster.rows; y++) for (let x = 0; x < raster.columns; x++) {
              const i = y * raster.columns + x;
              const [az, alt] = [raster.fromDeg + (x + 0.5) * raster.columnDeg, raster.topDeg - (y + 0.5) * raster.rowDeg].map(v => v * Math.PI / 180);
              const towards = [Math.cos(alt) * Math.sin(az), Math.cos(alt) * Math.cos(az), Math.sin(alt)];
              const facing = -(normals[3 * i] * towards[0] + normals[3 * i + 1] * towards[1] + normals[3 * i + 2] * towards[2]);
              if (raster.distances[i] > 0 && facing < 0) turnedAway++;
            }
            return [mean(0), mean(Math.round(startS / 60)), mean(Math.round(startS / 60) + 240), turnedAway / raster.distances.length];
            """, answer);
        Assert.Equal(0, found[0]);
        Assert.InRange(found[1], 0.02, 0.98);
        Assert.True(found[2] > found[1]);
        Assert.InRange(found[3], 0, 0.01);
    }

    private static void Same(double[] expected, double[] found)
    {
        Assert.Equal(expected.Length, found.Length);
        for (var i = 0; i < expected.Length; i++) Assert.Equal(expected[i], found[i], 1e-9);
    }

    private async Task<double[]> NumbersAsync(string body, JsonNode? answer = null) => await AskAsync<double[]>(body, answer);

    /// <summary>Runs the body of an async function in the page; <c>answer</c> is at hand in it.</summary>
    private async Task<T> AskAsync<T>(string body, JsonNode? answer = null)
    {
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(service.Client.BaseAddress!, "/health"));
        return await page.Tab.EvaluateFunctionAsync<T>($"async text => {{ const answer = JSON.parse(text); {body} }}", answer?.ToJsonString() ?? "null");
    }
}
