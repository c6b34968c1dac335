using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>Against root-found ERFA altitudes, Reference/sky/rise_set.csv (see PROVENANCE.md there): 24 h from local midnight,
/// many of them near the polar circles. Times in the file are rounded to 0.1 s.</summary>
public class SunEventsTests
{
    private static readonly Dictionary<string, ReferenceRow> ById =
        ReferenceData.Rows("sky/rise_set.csv").ToDictionary(row => row["id"]);

    public static TheoryData<string> Rows => [.. ById.Keys];

    [Theory]
    [MemberData(nameof(Rows))]
    public void Rise_and_set_come_when_the_reference_says(string id)
    {
        var row = ById[id];
        Expect(row, "sun", "sunrise", "sunset", DayOf(row).RiseSet, SunEvents.RiseSetAltitude);
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void Twilights_come_when_the_reference_says(string id)
    {
        var row = ById[id];
        var day = DayOf(row);
        Expect(row, "civil", "civil_dawn", "civil_dusk", day.Civil, SunEvents.CivilAltitude);
        Expect(row, "naut", "naut_dawn", "naut_dusk", day.Nautical, SunEvents.NauticalAltitude);
        Expect(row, "astro", "astro_dawn", "astro_dusk", day.Astronomical, SunEvents.AstronomicalAltitude);
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void The_transit_is_where_the_reference_puts_it(string id)
    {
        var row = ById[id];
        var transit = DayOf(row).Transit!.Value;
        Assert.Equal(0, (transit.At - At(row["transit_utc"])).TotalSeconds, 1.0);
        Assert.Equal(row.Number("transit_altitude_airless_deg"), transit.AirlessAltitude.Degrees, 0.0005);
    }

    public static TheoryData<int> PublishedDays => [0, 1, 2, 3];

    // Values of NREL's own calculator, in spa_example.json. It rounds to 1 s and interpolates geocentric positions of three
    // midnights: the parallax it leaves out, 8.8″, is worth another second. Its events are those of the date in universal
    // time, told by the local clock: in Colorado in August that is the sunset of the evening before.
    [Theory]
    [MemberData(nameof(PublishedDays))]
    public void Days_of_the_NREL_calculator(int index)
    {
        var published = ReferenceData.Json("sky/spa_example.json").RootElement.GetProperty("spa_site_rise_set").GetProperty("rows")[index];
        var isUtc = published.TryGetProperty("date_utc", out var date);
        var clock = Offset.FromHours(isUtc ? 0 : -7);
        var midnight = LocalDatePattern.Iso.Parse((isUtc ? date : published.GetProperty("date_mst")).GetString()!).Value
            .AtMidnight().WithOffset(Offset.Zero).ToInstant();
        var place = Place.FromDegrees(published.GetProperty("lat").GetDouble(), published.GetProperty("lon").GetDouble());
        var day = SunEvents.Of(new Interval(midnight, midnight + Duration.FromDays(1)), place);

        ExpectClock("sunrise", Assert.Single(day.RiseSet.Risings));
        ExpectClock("transit", day.Transit!.Value.At);
        ExpectClock("sunset", Assert.Single(day.RiseSet.Settings));

        void ExpectClock(string name, Instant found) => Assert.Equal(
            LocalTimePattern.ExtendedIso.Parse(published.GetProperty(name).GetString()!).Value.TickOfDay / 1e7,
            found.WithOffset(clock).TimeOfDay.TickOfDay / 1e7, 1.6);
    }

    private static void Expect(
        ReferenceRow row, string status, string rising, string setting, ThresholdCrossings found, Angle threshold)
    {
        Assert.Equal(row[$"{status}_status"], JsonNamingPolicy.SnakeCaseLower.ConvertName(found.Status.ToString()));
        Assert.Equal((int)row.Number($"{rising}_count"), found.Risings.Count);
        Assert.Equal((int)row.Number($"{setting}_count"), found.Settings.Count);
        ExpectFirst(row, $"{rising}_utc", found.Risings, threshold);
        ExpectFirst(row, $"{setting}_utc", found.Settings, threshold);
    }

    // One second, more where the sun climbs by less than 10° an hour: there a hair of altitude is worth more time.
    private static void ExpectFirst(ReferenceRow row, string column, IReadOnlyList<Instant> found, Angle threshold)
    {
        if (found.Count == 0)
        {
            Assert.False(row.Has(column));
            return;
        }
        var toleranceS = Math.Max(1, 10 / RateDegPerHour(row, found[0]));
        Assert.Equal(0, (found[0] - At(row[column])).TotalSeconds, toleranceS);
        Assert.Equal(threshold.Degrees, AltitudeDeg(row, At(row[column])), 0.001);
    }

    private static double RateDegPerHour(ReferenceRow row, Instant at)
    {
        var half = Duration.FromSeconds(30);
        return Math.Abs(AltitudeDeg(row, at + half) - AltitudeDeg(row, at - half)) * 60;
    }

    private static double AltitudeDeg(ReferenceRow row, Instant at) =>
        Sun.At(at, row.Number("delta_t_s")).SeenFrom(PlaceOf(row)).AirlessAltitude.Degrees;

    private static DayOfSun DayOf(ReferenceRow row)
    {
        var start = At(row["window_start_utc"]);
        return SunEvents.Of(new Interval(start, start + Duration.FromDays(1)), PlaceOf(row), row.Number("delta_t_s"));
    }

    private static Place PlaceOf(ReferenceRow row) => Place.FromDegrees(row.Number("lat_deg"), row.Number("lon_east_deg"));

    private static Instant At(string text) => InstantPattern.ExtendedIso.Parse(text).Value;
}
