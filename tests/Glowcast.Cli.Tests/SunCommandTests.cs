using System.Text.Json;

namespace Glowcast.Cli.Tests;

public class SunCommandTests
{
    private static readonly string[] Place = ["--latitude", "39.742476", "--longitude", "-105.1786"];

    [Fact]
    public async Task The_sun_stands_where_the_published_example_puts_it()
    {
        // NREL/TP-560-34302 (rev. January 2008), table A5.1; more digits from public implementations, see the file itself.
        using var example = JsonDocument.Parse(await File.ReadAllTextAsync(
            Path.Combine(AppContext.BaseDirectory, "Reference", "spa_example.json"), TestContext.Current.CancellationToken));

        var sun = (await Outcome.Of(["sun", "--at", "2003-10-17T12:30:30-07:00", .. Place, "--height", "1830.14", "--delta-t", "67", "--json"])).Json;

        Assert.Equal(194.34024, sun.GetProperty("azimuthDeg").GetDouble(), 0.00001);
        var airless = example.RootElement.GetProperty("intermediate").GetProperty("e0_deg").GetDouble();
        Assert.Equal(airless, sun.GetProperty("airlessAltitudeDeg").GetDouble(), 0.00001);
        Assert.Equal(14.6415, sun.GetProperty("equationOfTimeMin").GetDouble(), 0.0001);
        Assert.True(sun.GetProperty("apparentAltitudeDeg").GetDouble() > airless);
        Assert.Equal(0.2675, sun.GetProperty("semidiameterDeg").GetDouble(), 0.0001);
        Assert.Equal(0.9965, sun.GetProperty("distanceAu").GetDouble(), 0.0001);
    }

    [Theory]
    [InlineData("2003-10-17T19:30:30Z")]
    [InlineData("2003-10-17T21:30:30.000+02:00")]
    [InlineData("2003-10-17T12:30:30-07")]
    public async Task An_instant_may_be_written_with_any_offset(string at)
    {
        var sun = (await Outcome.Of(["sun", "--at", at, .. Place, "--json"])).Json;

        Assert.Equal("2003-10-17T19:30:30.0Z", sun.GetProperty("at").GetString());
    }

    [Fact]
    public async Task A_day_has_its_events_in_order()
    {
        var day = (await Outcome.Of(["sun", "--date", "2026-02-14", .. Place, "--time-zone", "America/Denver", "--json"])).Json;

        string[] order =
        [
            "astronomicalDawn", "nauticalDawn", "civilDawn", "sunrise", "transit", "sunset", "civilDusk", "nauticalDusk", "astronomicalDusk",
        ];
        var times = order.Select(name => day.GetProperty(name).GetString()!).ToList();
        Assert.Equal(times.Order(StringComparer.Ordinal), times);
        Assert.Equal("events", day.GetProperty("status").GetString());
    }

    [Fact]
    public async Task A_day_without_events_says_on_which_side_the_sun_stays()
    {
        var day = (await Outcome.Of("sun", "--date", "2026-06-21", "--latitude", "78", "--longitude", "15", "--json")).Json;

        Assert.Equal("alwaysAbove", day.GetProperty("status").GetString());
        Assert.Equal(JsonValueKind.Null, day.GetProperty("sunrise").ValueKind);
        Assert.NotEqual(JsonValueKind.Null, day.GetProperty("transit").ValueKind);
    }

    [Fact]
    public async Task Local_times_stand_beside_utc()
    {
        var day = await Outcome.Of(["sun", "--date", "2026-02-14", .. Place, "--time-zone", "America/Denver"]);

        // The Astronomical Applications pages give times to the minute only; here the two columns are compared with one another.
        var sunrise = Assert.Single(day.Lines, line => line.Contains("sunrise", StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(TimeSpan.FromHours(7), TimeSpan.Parse(sunrise[2], null) - TimeSpan.Parse(sunrise[1], null));
    }

    [Fact]
    public async Task A_day_can_have_two_sunsets_and_says_both_with_their_local_times()
    {
        // At 64.84° N sunset moves back over midnight (daylight time) in July: that day has one at each of its ends.
        var days = new List<JsonElement>();
        for (var day = 1; day <= 25; day++)
        {
            days.Add((await Outcome.Of(
                "sun", "--date", $"2026-07-{day:00}", "--latitude", "64.84", "--longitude", "-147.72", "--time-zone", "America/Anchorage", "--json")).Json);
        }
        var both = Assert.Single(days, day => Sunsets(day).Count == 2);
        var (first, second) = (Sunsets(both)[0], Sunsets(both)[1]);
        Assert.Equal(both.GetProperty("sunset").GetString(), first.GetProperty("at").GetString());
        Assert.StartsWith($"{both.GetProperty("date").GetString()}T00:", first.GetProperty("local").GetString(), StringComparison.Ordinal);
        Assert.StartsWith($"{both.GetProperty("date").GetString()}T23:", second.GetProperty("local").GetString(), StringComparison.Ordinal);

        static List<JsonElement> Sunsets(JsonElement day) => [.. day.GetProperty("events").EnumerateArray().Where(happens => happens.GetProperty("name").GetString() == "sunset")];
    }
}
