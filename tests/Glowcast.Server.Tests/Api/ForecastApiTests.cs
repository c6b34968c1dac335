using System.Net;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Answers;

namespace Glowcast.Server.Tests.Api;

public class ForecastApiTests(Service service)
{
    // The command line's contract; the service answers the same.
    private static readonly string[] OfForecast = ["date", "timeZone", "lookout", "span", "windows", "whyNone", "set", "fit", "cloud", "assumed", "cautions", "chart", "picture", "nearestMiss", "sky"];
    private static readonly string[] OfFit = ["verdict", "marginS", "earliestStart", "latestStart", "firstProblem", "remedies"];
    private static readonly string[] OfSet =
    [
        "columns", "rows", "frames", "horizontalFovDeg", "verticalFovDeg", "stepDeg", "widthPx", "printWidthMm", "firstToLastS", "setS", "totalS",
        "columnsWithSpares", "framesPerSet", "focalLengthPx", "pixelPitchUm", "coveredHorizontalDeg", "coveredVerticalDeg", "cleanWidthPx", "cleanHeightPx",
        "hyperfocalM", "nearLimitM", "airyDiameterUm", "parallaxFreeM", "levelCropPx", "maxSideGapS", "maxVerticalGapS",
    ];

    [Fact]
    public async Task A_plan_is_answered_with_every_field_of_the_contract()
    {
        var answer = (await service.PostPlanAsync(MadeValley.Plan()).JsonAsync()).AsObject();

        Assert.Empty(OfForecast.Except(answer.Select(field => field.Key)));
        Assert.Empty(OfFit.Except(answer["fit"]!.AsObject().Select(field => field.Key)));
        Assert.Empty(OfSet.Except(answer["set"]!.AsObject().Select(field => field.Key)));
        Assert.Equal("fits", answer["fit"]!["verdict"]!.GetValue<string>());
        Assert.NotEmpty(answer["windows"]!.AsArray());
        Assert.NotEmpty(answer["cautions"]!.AsArray());
        Assert.Null(answer["chart"]);
        Assert.Null(answer["picture"]);
    }

    [Fact]
    public async Task The_answer_is_the_engines_own_to_the_letter_and_stays_so_when_asked_again()
    {
        var plan = PlanReader.Read(JsonSerializer.SerializeToElement(MadeValley.Plan()), PlanNeeds.Forecast);
        var expected = AnswerJson.Write(ForecastAnswer.Of(
            Forecaster.Forecast(plan, MadeValley.Grid, cancel: TestContext.Current.CancellationToken), withPictures: true));

        for (var time = 0; time < 2; time++)
        {
            using var response = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true");
            Assert.Equal(expected, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        }
        // Remembering must not mix up answers with and without pictures.
        Assert.Null((await service.PostPlanAsync(MadeValley.Plan()).JsonAsync())["picture"]);
    }

    [Fact]
    public async Task Chart_and_picture_agree_with_one_another_and_with_the_windows()
    {
        var answer = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync();
        var (chart, picture) = (answer["chart"]!, answer["picture"]!);
        var (columns, minutes) = (chart["columns"]!.GetValue<int>(), chart["minutes"]!.GetValue<int>());

        foreach (var layer in (string[])["crest", "ridge", "valley"])
            Assert.Equal(columns * minutes, Convert.FromBase64String(chart[layer]!.GetValue<string>()).Length);
        foreach (var series in (string[])["valleyShare", "sunAzimuthDeg", "sunAltitudeDeg"]) Assert.Equal(minutes, chart[series]!.AsArray().Count);
        Assert.Equal(
            2 * picture["columns"]!.GetValue<int>() * picture["rows"]!.GetValue<int>(),
            Convert.FromBase64String(picture["distance"]!.GetValue<string>()).Length);
        var columnOf = MemoryMarshal.Cast<byte, ushort>(Convert.FromBase64String(picture["patches"]!["column"]!.GetValue<string>())).ToArray();
        Assert.NotEmpty(columnOf);
        Assert.All(columnOf, column => Assert.InRange(column, 0, columns - 1));

        // In the middle of the window at least nine columns in ten are lit, and the valley is shaded: that is what a window is.
        var window = answer["windows"]![0]!;
        var middle = (Since(window["start"]!) + Since(window["end"]!)) / 2;
        var lit = chart["columnLitS"]!.AsArray().Count(column => Covers(column!, middle));
        Assert.Equal(window["litShare"]!.GetValue<double>(), (double)lit / columns, 6);
        Assert.True(Covers(chart["valleyShadedS"]!, middle));

        double Since(JsonNode instant) => (Instant(instant) - Instant(chart["start"]!)).TotalSeconds;
        static DateTimeOffset Instant(JsonNode text) => DateTimeOffset.Parse(text.GetValue<string>(), System.Globalization.CultureInfo.InvariantCulture);
        static bool Covers(JsonNode ends, double seconds) =>
            ends.AsArray().Select(end => end!.GetValue<double>()).Chunk(2).Any(stretch => stretch[0] <= seconds && seconds < stretch[1]);
    }

    [Fact]
    public async Task A_day_without_light_is_an_answer()
    {
        var plan = MadeValley.Plan();
        plan["span"]!["ridgeFromKm"] = 60;
        var answer = await service.PostPlanAsync(plan, "?pictures=true").JsonAsync();
        Assert.Empty(answer["windows"]!.AsArray());
        Assert.Contains("no ridge", answer["whyNone"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal("noLight", answer["fit"]!["verdict"]!.GetValue<string>());
    }

    [Fact]
    public async Task All_faults_of_a_request_are_said_at_once_under_their_fields()
    {
        var plan = MadeValley.Plan();
        plan["lookout"]!["latitudeDeg"] = 91;
        plan["lookout"]!["timeZone"] = "Mars/Olympus";
        plan["date"] = "1949-12-31";
        plan["span"]!["toDeg"] = 262;
        plan["camera"]!["pixelsWide"] = 0;
        plan["lens"]!["focalLengthMm"] = "long";
        plan["set"]!["overlap"] = 1;
        plan["grids"]!.AsArray().Add("elsewhere.hgt");
        plan["colour"] = "red";

        var faults = await service.PostPlanAsync(plan, "?pictures=perhaps&when=now").FaultsAsync();

        Assert.Equal(
            ["camera.pixelsWide", "colour", "date", "grids", "lens.focalLengthMm", "lookout.latitudeDeg", "lookout.timeZone", "pictures", "set.overlap", "span.toDeg", "when"],
            faults.Keys.Order(StringComparer.Ordinal));
        Assert.Contains("elsewhere.hgt", faults["grids"], StringComparison.Ordinal);
        Assert.Contains(MadeValley.GridId, faults["grids"], StringComparison.Ordinal);
        Assert.Contains("from -90 to 90", faults["lookout.latitudeDeg"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_far_too_long_is_not_sent_back_in_full()
    {
        var (plan, far) = (MadeValley.Plan(), new string('f', 5000));
        plan["lookout"]!["timeZone"] = far;
        plan["date"] = far;
        plan["camera"]!["pixelsWide"] = JsonNode.Parse(new string('9', 5000));
        plan["lens"]!["focalLengthMm"] = far;
        plan["set"]!["orientation"] = far;
        plan["grids"]!.AsArray().Add(far);
        plan[far] = 1;
        var faults = await service.PostPlanAsync(plan, $"?pictures={far}").FaultsAsync();
        Assert.Equal(8, faults.Count);
        Assert.All(faults, fault => Assert.True(fault.Key.Length <= 81 && fault.Value.Length < 600, fault.Value));
        Assert.EndsWith($"got '{far[..80]}…'.", faults["date"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lookout_outside_the_grid_and_a_set_that_cannot_be_shot_are_faults_too()
    {
        var away = MadeValley.Plan();
        away["lookout"]!["latitudeDeg"] = 45.5;
        Assert.Equal("lookout", Assert.Single(await service.PostPlanAsync(away).FaultsAsync()).Key);
        var impossible = MadeValley.Plan();
        impossible["set"]!["rows"] = 20;
        Assert.Equal("set", Assert.Single(await service.PostPlanAsync(impossible).FaultsAsync()).Key);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("""{ "date": "2026-10-20", "date": "2026-10-21" }""")]
    [InlineData("""{ "span": { "fromDeg": NaN } }""")]
    public async Task What_is_no_json_object_is_refused(string text) =>
        Assert.Equal("plan", Assert.Single(await service.PostTextAsync(text).FaultsAsync()).Key);

    [Fact]
    public async Task A_body_that_is_too_large_is_refused_whether_or_not_it_says_so_before()
    {
        var text = MadeValley.Plan().ToJsonString() + new string(' ', 64 * 1024);
        await service.PostTextAsync(text).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);

        using var chunked = new HttpRequestMessage(HttpMethod.Post, new Uri("/api/forecasts", UriKind.Relative));
        chunked.Content = new StreamContent(new MemoryStream(Encoding.UTF8.GetBytes(text)));
        chunked.Content.Headers.ContentType = new("application/json");
        chunked.Headers.TransferEncodingChunked = true;
        await service.Client.SendAsync(chunked, TestContext.Current.CancellationToken).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    public async Task Another_content_type_is_refused(string type) =>
        await service.PostTextAsync(MadeValley.Plan().ToJsonString(), "", type).ProblemAsync(HttpStatusCode.UnsupportedMediaType);

    [Fact]
    public async Task Another_method_is_refused() => await service.GetAsync("/api/forecasts").ProblemAsync(HttpStatusCode.MethodNotAllowed);

    [Theory]
    [InlineData("2026-10-21", 0)]
    [InlineData("2026-10-22", 20)]
    [InlineData("2026-10-23", 100)]
    public async Task A_client_that_goes_away_harms_nobody(string date, int afterMs)
    {
        var plan = MadeValley.Plan();
        plan["date"] = date;
        using (var impatient = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken))
        {
            using var content = new StringContent(plan.ToJsonString(), Encoding.UTF8, "application/json");
            var asked = service.Client.PostAsync(new Uri("/api/forecasts", UriKind.Relative), content, impatient.Token);
            await Task.Delay(afterMs, TestContext.Current.CancellationToken);
            await impatient.CancelAsync();
            // A quick machine may have answered by then.
            Assert.True(await Record.ExceptionAsync(() => asked) is null or OperationCanceledException);
        }
        // A turn that was never given back would keep this one waiting for ever.
        Assert.Equal(date, (await service.PostPlanAsync(plan).JsonAsync())["date"]!.GetValue<string>());
    }
}
