using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Sky;

public class MoonEventsTests
{
    // Moonrise and moonset of the day in universal time, from pyephem 4.1.4 (libastro; its own ΔT): sea level, no air, upper limb
    // at −34′. Our moon may be off by 0.003°, one second at
    // 10° an hour and more where it climbs slowly.
    [Theory]
    [InlineData(44.2592, -71.2025, "2015-03-05", SkyStatus.Events, "22:48:59.1", "10:59:36.2")]
    [InlineData(44.2592, -71.2025, "2018-01-31", SkyStatus.Events, "22:15:29.2", "12:03:33.5")]
    [InlineData(44.2592, -71.2025, "2020-04-08", SkyStatus.Events, "", "10:51:30.7")]
    [InlineData(46.0207, 7.7491, "2016-06-19", SkyStatus.Events, "18:16:52.1", "03:10:32.5")]
    [InlineData(46.0207, 7.7491, "2019-11-12", SkyStatus.Events, "16:21:32.9", "05:56:16.7")]
    [InlineData(46.0207, 7.7491, "2021-12-18", SkyStatus.Events, "15:04:43.1", "06:31:48.7")]
    [InlineData(-43.595, 170.1418, "2018-01-31", SkyStatus.Events, "07:50:24.1", "17:56:57.8")]
    [InlineData(-43.595, 170.1418, "2020-04-08", SkyStatus.Events, "06:43:32.8", "19:53:02.3")]
    [InlineData(69.6492, 18.9553, "2015-03-05", SkyStatus.Events, "16:03:53.2", "05:32:58.2")]
    [InlineData(69.6492, 18.9553, "2018-01-31", SkyStatus.Events, "13:18:00.4", "08:35:33.0")]
    [InlineData(69.6492, 18.9553, "2020-04-08", SkyStatus.Events, "18:47:31.4", "04:19:01.7")]
    [InlineData(78.2232, 15.6267, "2016-06-19", SkyStatus.AlwaysBelow, "", "")]
    [InlineData(78.2232, 15.6267, "2019-11-12", SkyStatus.AlwaysAbove, "", "")]
    [InlineData(78.2232, 15.6267, "2021-12-18", SkyStatus.AlwaysAbove, "", "")]
    [InlineData(-54.8019, -68.303, "2018-01-31", SkyStatus.Events, "00:07:37.7", "08:47:16.1")]
    [InlineData(-54.8019, -68.303, "2020-04-08", SkyStatus.Events, "22:42:07.2", "11:29:50.3")]
    [InlineData(27.9881, 86.925, "2015-03-05", SkyStatus.Events, "11:59:57.0", "00:02:52.2")]
    [InlineData(27.9881, 86.925, "2018-01-31", SkyStatus.Events, "11:44:12.2", "00:33:44.6")]
    [InlineData(27.9881, 86.925, "2020-04-08", SkyStatus.Events, "12:56:32.6", "00:10:35.8")]
    [InlineData(0.0, -78.4678, "2016-06-19", SkyStatus.Events, "22:51:21.1", "10:25:40.1")]
    [InlineData(0.0, -78.4678, "2019-11-12", SkyStatus.Events, "23:21:23.8", "10:56:54.0")]
    [InlineData(0.0, -78.4678, "2021-12-18", SkyStatus.Events, "22:59:49.0", "10:34:19.1")]
    public void The_moon_rises_and_sets_when_another_program_says(
        double latitude, double longitude, string date, SkyStatus status, string rises, string sets)
    {
        var midnight = LocalDatePattern.Iso.Parse(date).Value.AtMidnight().InUtc().ToInstant();
        var place = Place.FromDegrees(latitude, longitude);
        var found = MoonEvents.RiseSet(new Interval(midnight, midnight + Duration.FromDays(1)), place);

        Assert.Equal(status, found.Status);
        Expect(rises, found.Risings);
        Expect(sets, found.Settings);

        void Expect(string clock, IReadOnlyList<Instant> moments)
        {
            if (clock.Length == 0)
            {
                Assert.Empty(moments);
                return;
            }
            var expected = midnight + Duration.FromTicks(LocalTimePattern.ExtendedIso.Parse(clock).Value.TickOfDay);
            var moment = Assert.Single(moments);
            var rate = Math.Abs(Altitude(moment + Duration.FromMinutes(1)) - Altitude(moment)) * 60;
            Assert.Equal(0, (moment - expected).TotalSeconds, Math.Max(1, 10 / rate));
        }

        double Altitude(Instant at) => Moon.At(at).SeenFrom(place).AirlessAltitude.Degrees;
    }
}
