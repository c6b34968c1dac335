using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page's thinking, module by module, run where it runs: in a browser.</summary>
[Trait("Category", "Browser")]
public class ModuleTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task A_bearing_scale_crosses_north_and_reaches_a_little_beyond_its_span() => Same(
        [100, 250, 400, 50, 5, 345],
        await NumbersAsync(
            """
            const { bearingScale } = await import('/think/scales.js');
            const scale = bearingScale(350, 30, 100, 400);
            return [scale.toPx(350), scale.toPx(5), scale.toPx(20), scale.toPx(345), scale.toDeg(250), scale.toDeg(50)];
            """));

    [FactNeeds<Chromium>]
    public async Task Time_scales_turn_back_and_ticks_fall_on_multiples() => Same(
        [240, 450, 600, 250, 255, 260, -5, 0, 5, 5],
        await NumbersAsync(
            """
            const { timeScale, multiples, stepFor } = await import('/think/scales.js');
            const scale = timeScale(300, 900, 0, 960);
            return [scale.toPx(450), scale.toS(240), scale.toS(480), ...multiples(248, 262, 5), ...multiples(-5, 5, 5), stepFor(74, 20, [1, 2, 5, 10])];
            """));

    [FactNeeds<Chromium>]
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

    [FactNeeds<Chromium>]
    public async Task Stretches_have_in_common_what_both_cover() => Same(
        [2, 3, 8, 9, 9.5, 10],
        await NumbersAsync(
            """
            const { common, stretchesOf } = await import('/think/stretches.js');
            return common(stretchesOf([0, 3, 8, 10]), stretchesOf([2, 9, 9.5, 12])).flatMap(s => [s.startS, s.endS]);
            """));

    [FactNeeds<Chromium>]
    public async Task Clocks_show_local_time_on_both_sides_of_a_change_and_the_sun_s_without_a_zone() => Assert.Equal(
        ["01:59:59", "03:00:00", "03:00", "11:00:00"],
        await AskAsync<string[]>(
            """
            const { localClock } = await import('/think/clock.js');
            const zurich = localClock('Europe/Zurich', 8.5);
            const change = Date.parse('2026-03-29T01:00:00Z');
            return [zurich.hms(change - 1000), zurich.hms(change), zurich.hm(change - 1), localClock(null, -15).hms(Date.parse('2026-03-29T12:00:00Z'))];
            """));

    [FactNeeds<Chromium>]
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

    [FactNeeds<Chromium>]
    public async Task What_is_typed_becomes_what_a_plan_has() => Assert.Equal(
        """[null,12.5,-3,"long","2026-10-20",{"a":1,"b":{"c":2}},{"b":{"c":2}}]""",
        (await AskAsync<JsonElement>(
            """
            const { typed, withValue } = await import('/think/plan.js');
            const number = { kind: 'number' };
            return [typed(' ', number), typed('12,5', number), typed('-3', number), typed('long', number), typed('2026-10-20', { kind: 'date' }),
              withValue({ a: 1 }, 'b.c', 2), withValue(null, 'b.c', 2)];
            """)).GetRawText());

    [TheoryNeeds<Chromium>]
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
            const forecast = forecastOf(answer);
            const at = name => secondsAt(forecast.chart, Date.parse(answer.fit[name]));
            return [at('earliestStart'), at('latestStart'), at('earliestStart') - 2, at('latestStart') + 2]
              .map(startS => stairAt(forecast, startS).filter(step => step.problem).length);
            """, answer);
        Assert.Equal([0, 0], missing[..2]);
        Assert.All(missing[2..4], count => Assert.True(count > 0));
    }

    [FactNeeds<Chromium>]
    public async Task The_stair_shows_at_every_start_what_the_table_of_the_answer_says()
    {
        var plan = MadeValley.Plan();
        plan["set"]!["repeats"] = 6;
        var answer = await service.PostPlanAsync(plan, "?pictures=true").JsonAsync();
        var rows = answer["fit"]!["starts"]!.AsArray();
        Assert.True(rows.Count > 60, $"{rows.Count}");

        // The last start allowed is told to a second and may stand a fraction past its light: every row but those within a second of either end.
        var differ = await NumbersAsync(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { secondsAt } = await import('/think/chart.js');
            const { stairAt } = await import('/think/stair.js');
            const { rowAt, roomAt, startAt } = await import('/think/starts.js');
            const forecast = forecastOf(answer);
            const inner = answer.fit.starts.filter(row => ['earliestStart', 'latestStart'].every(end => Math.abs(Date.parse(row.start) - Date.parse(answer.fit[end])) > 1000));
            const differing = inner.filter(row => {
              const missing = stairAt(forecast, secondsAt(forecast.chart, Date.parse(row.start))).filter(step => step.problem);
              return answer.fit.exposures - missing.length !== row.inLight || missing[0]?.problem !== row.firstProblem?.problem;
            });
            const ms = Date.parse(answer.fit.chosenStart);
            const room = roomAt(answer.fit, ms);
            return [differing.length, rowAt(answer.fit, ms + 300).chance - answer.fit.chance, room.beforeS - answer.fit.roomBeforeS, room.afterS - answer.fit.roomAfterS,
              startAt(answer.windows, answer.windows[0], Date.parse(answer.windows[0].start) + 61000).afterOpensS];
            """, answer);
        Assert.Equal(0, differ[0]);
        Assert.Equal(0, differ[1], 1e-9);
        Assert.All(differ[2..4], apart => Assert.InRange(apart, -0.06, 0.06));
        Assert.Equal(61, differ[4]);
    }

    [FactNeeds<Chromium>]
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
            const forecast = forecastOf(answer);
            const first = stairAt(forecast, forecast.startS).find(step => step.problem);
            return { set: first.exposure.set, frame: first.frame, problem: first.problem };
            """, answer);
        Assert.Equal(expected["set"]!.GetValue<int>(), found.GetProperty("set").GetInt32());
        Assert.Equal(expected["frame"]!.GetValue<int>(), found.GetProperty("frame").GetInt32());
        Assert.Equal(expected["problem"]!.GetValue<string>(), found.GetProperty("problem").GetString());
    }

    [FactNeeds<Chromium>]
    public async Task The_picture_is_lit_where_its_patches_are_and_ground_faces_the_eye()
    {
        var answer = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync();
        var found = await NumbersAsync(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { lightOfPatches } = await import('/think/patches.js');
            const { lightAt } = await import('/think/patch-map.js');
            const { normalsOf } = await import('/think/ground.js');
            const { chart, scene, startS } = forecastOf(answer);
            const { raster, ground } = scene;
            const normals = normalsOf(raster);
            const mean = minute => {
              const light = lightOfPatches(chart, scene.patches, minute);
              return ground.pixels.reduce((sum, _, i) => sum + lightAt(scene.map, light, i), 0) / ground.pixels.length;
            };
            let turnedAway = 0;
            for (const i of ground.pixels) {
              const [x, y] = [i % raster.columns, Math.floor(i / raster.columns)];
              const [az, alt] = [raster.fromDeg + (x + 0.5) * raster.columnDeg, raster.topDeg - (y + 0.5) * raster.rowDeg].map(v => v * Math.PI / 180);
              const towards = [Math.cos(alt) * Math.sin(az), Math.cos(alt) * Math.cos(az), Math.sin(alt)];
              if (normals[3 * i] * towards[0] + normals[3 * i + 1] * towards[1] + normals[3 * i + 2] * towards[2] > 0) turnedAway++;
            }
            return [mean(0), mean(Math.round(startS / 60)), mean(Math.round(startS / 60) + 240), turnedAway / raster.distances.length];
            """, answer);
        Assert.Equal(0, found[0]);
        Assert.InRange(found[1], 0.02, 0.98);
        Assert.True(found[2] > found[1]);
        Assert.InRange(found[3], 0, 0.01);
    }

    [FactNeeds<Chromium>]
    public async Task A_place_is_in_sight_or_behind_the_ground_that_hides_it_or_out_of_the_span()
    {
        var answer = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync();
        // The western crest stands on 7 + 500 / 1200 °E, 12.7 km away; the floor before it is seen, a farm behind it is not, and the south is not looked at.
        var found = await AskAsync<JsonElement>(
            """
            const { forecastOf } = await import('/think/forecast.js');
            const { sightTo } = await import('/think/sight.js');
            const { between } = await import('/think/sphere.js');
            const { scene } = forecastOf(answer);
            return [[46.5, 7 + 500 / 1200], [46.5, 7.45], [46.5, 7.35], [46.3, 7.58]].map(([latitudeDeg, longitudeDeg]) => {
              const { bearingDeg, metres } = between(answer.lookout, { latitudeDeg, longitudeDeg });
              return sightTo(scene.raster, bearingDeg, metres);
            });
            """, answer);
        Assert.True(found[0].GetProperty("altitudeDeg").GetDouble() > 0);
        Assert.True(found[1].GetProperty("altitudeDeg").GetDouble() < 0);
        Assert.InRange(found[2].GetProperty("behindM").GetDouble(), 12_200, 13_200);
        Assert.Equal(JsonValueKind.Null, found[3].ValueKind);
    }

    [FactNeeds<Chromium>]
    public async Task Direct_light_has_the_hue_of_its_chromaticity_and_keeps_its_brightness()
    {
        // CIE 1931: the white point D65 is (0.3127, 0.3290) and grey in sRGB; a black body at 2000 K, (0.5267, 0.4133), is orange.
        var found = await NumbersAsync(
            """
            const { inColour } = await import('/think/tones.js');
            const inks = { lit: [200, 200, 200], shade: [0, 0, 0], top: [0, 0, 0], foot: [0, 0, 0] };
            return [...inColour(inks, 0.3127, 0.329).lit, ...inColour(inks, 0.5267, 0.4133).lit];
            """);
        Assert.All(found[..3], channel => Assert.InRange(channel, 198, 202));
        Assert.True(found[3] > found[4] + 40 && found[4] > found[5] + 40);
        Assert.Equal(200, (0.3 * found[3]) + (0.59 * found[4]) + (0.11 * found[5]), 1e-6);
    }

    [FactNeeds<Chromium>]
    public async Task The_top_of_a_deck_is_told_from_ground_above_it() => Same(
        [1, 0, 1],
        await NumbersAsync(
            """
            // From 2000 m, 20 km away: a level line of sight passes 27 m over the deck's own drop of d²(1 − k) / 2R.
            const { deckTest } = await import('/think/painter.js');
            const isDeck = deckTest(1500, 2000, 0.13, 0.05);
            const drop = 20000 * 20000 * 0.87 / (2 * 6371000);
            const toHeight = metres => Math.atan((metres - 2000 - drop) / 20000) * 180 / Math.PI;
            return [isDeck(20000, toHeight(1500)), isDeck(20000, toHeight(1560)), !deckTest(null, 2000, 0.13, 0.05)(20000, -5)].map(Number);
            """));

    [FactNeeds<Chromium>]
    public async Task A_link_holds_the_whole_state_and_what_is_none_is_refused() => Assert.Equal(
        """[{"startS":31.5,"minute":7,"plan":{"date":"2026-10-20","note":"an even ridge"}},true,null,null]""",
        (await AskAsync<JsonElement>(
            """
            const { linkOf, stateOf } = await import('/think/link.js');
            const link = await linkOf({ startS: 31.5, minute: 7, plan: { date: '2026-10-20', note: 'an even ridge' } });
            return [await stateOf(link), /^[\w-]+$/.test(link), await stateOf('nonsense'), await stateOf('')];
            """)).GetRawText());

    [FactNeeds<Chromium>]
    public async Task History_goes_back_and_forth_and_forgets_what_was_undone_when_something_new_is_done() => Assert.Equal(
        "[1,2,true,false,3,false]",
        (await AskAsync<JsonElement>(
            """
            const { History } = await import('/think/history.js');
            const states = new History();
            for (const state of [1, 2]) states.push(state);
            const found = [states.go(-1), states.go(1), states.canUndo, states.canRedo];
            states.go(-1);
            states.push(3);
            return [...found, states.now, states.canRedo];
            """)).GetRawText());

    [FactNeeds<Chromium>]
    public async Task Lengths_are_said_in_the_units_chosen_also_within_sentences_of_the_service() => Assert.Equal(
        ["850 m", "12.3 km", "339 cm", "2789 ft", "7.6 mi", "133.5 in", "Cloud 7.5 mi off, 1640 ft up over 3000 ft, 98 ft of it, for 12 min with the 135 mm lens.", "A layer from 2295 to 2420 ft."],
        await AskAsync<string[]>(
            """
            const say = await import('/think/say.js');
            const three = () => [say.distance(850), say.distance(12300), say.centimetres(3390)];
            const metric = three();
            say.setUnits('imperial');
            return [...metric, say.height(850), ...three().slice(1), say.sentence('Cloud 12.0 km off, 500 m up over 914 m, 30 m of it, for 12 min with the 135 mm lens.'), say.sentence('A layer from 700 to 737 m.')];
            """));

    [FactNeeds<Chromium>]
    public async Task The_clock_shows_the_second_that_answers_give_in_local_time()
    {
        var zone = DateTimeZoneProviders.Tzdb["Europe/Zurich"];
        var moments = Enumerable.Range(0, 200).Select(i => Instant.FromUtc(2026, 10, 24, 6, 52, 59) + Duration.FromMilliseconds(10 * i)).ToList();
        Assert.Equal(
            moments.Select(moment => Moments.Local(moment, zone)![11..19]),
            await AskAsync<string[]>(
                "const { localClock } = await import('/think/clock.js'); return answer.map(utc => localClock('Europe/Zurich', 8.5).hms(Date.parse(utc)));",
                new JsonArray([.. moments.Select(moment => JsonValue.Create(Moments.Utc(moment)))])));
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
