namespace Glowcast.Server.Tests.Api;

public class SunApiTests(Service service)
{
    [Fact]
    public async Task Where_the_sun_is_as_the_published_example_has_it()
    {
        // Reda & Andreas, NREL/TP-560-34302, A.5: 17 October 2003, 12:30:30 at UTC−7, ΔT 67 s. Airless altitude is its e0.
        var sun = await service.GetAsync(
            "/api/sun?at=2003-10-17T12:30:30-07:00&latitudeDeg=39.742476&longitudeDeg=-105.1786&heightM=1830.14&deltaTS=67").JsonAsync();
        Assert.Equal(194.34024, sun["azimuthDeg"]!.GetValue<double>(), 0.0005);
        Assert.Equal(39.872046, sun["airlessAltitudeDeg"]!.GetValue<double>(), 0.0005);
        foreach (var field in (string[])["apparentAltitudeDeg", "semidiameterDeg", "distanceAu", "equationOfTimeMin"]) Assert.NotNull(sun[field]);
    }

    [Fact]
    public async Task The_day_of_the_sun_and_days_without_a_rising()
    {
        var day = await service.GetAsync("/api/sun?date=2026-02-14&latitudeDeg=46.5&longitudeDeg=7.5&timeZone=Europe/Zurich").JsonAsync();
        foreach (var field in (string[])["sunrise", "sunset", "transit", "civilDawn", "civilDusk", "nauticalDawn", "nauticalDusk", "astronomicalDawn", "astronomicalDusk"])
            Assert.StartsWith("2026-02-14T", day[field]!.GetValue<string>(), StringComparison.Ordinal);

        var polar = await service.GetAsync("/api/sun?date=2026-06-21&latitudeDeg=80&longitudeDeg=15").JsonAsync();
        Assert.Null(polar["sunrise"]);
        Assert.Equal("alwaysAbove", polar["status"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_plus_sign_that_nobody_escaped_is_still_an_offset()
    {
        var east = await service.GetAsync("/api/sun?at=2026-02-14T12:00+01:00&latitudeDeg=46&longitudeDeg=7").JsonAsync();
        Assert.Equal("2026-02-14T11:00:00.0Z", east["at"]!.GetValue<string>());
    }

    [Fact]
    public async Task All_faults_are_said_at_once()
    {
        var faults = await service.GetAsync(
            "/api/sun?at=noon&date=2026-02-30&latitudeDeg=91&longitudeDeg=NaN&heightM=high&timeZone=Moon/Mare&deltaTS=1e9&moon=1").FaultsAsync();
        Assert.Equal(
            ["at", "date", "deltaTS", "heightM", "latitudeDeg", "longitudeDeg", "moon", "timeZone"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("", "at", "latitudeDeg", "longitudeDeg")]
    [InlineData("?at=2026-02-14T12:00:00&latitudeDeg=46&longitudeDeg=7", "at")]
    [InlineData("?at=1949-12-31T23:59:59Z&latitudeDeg=46&longitudeDeg=7", "at")]
    [InlineData("?date=2101-01-01&latitudeDeg=46&longitudeDeg=7", "date")]
    [InlineData("?date=2026-02-14&latitudeDeg=46&longitudeDeg=7&deltaTS=70", "deltaTS")]
    [InlineData("?date=2026-02-14&latitudeDeg=46&latitudeDeg=47&longitudeDeg=7", "latitudeDeg")]
    public async Task Each_fault_stands_under_its_field(string query, params string[] fields) =>
        Assert.Equal(fields, (await service.GetAsync($"/api/sun{query}").FaultsAsync()).Keys.Order(StringComparer.Ordinal));
}
