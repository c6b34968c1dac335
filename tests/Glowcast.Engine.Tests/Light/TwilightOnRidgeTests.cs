using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class TwilightOnRidgeTests
{
    [Fact]
    public void Day_has_none_and_twilight_has_those_of_the_suns_depth()
    {
        var crest = Valley.WestCrest;
        var track = SunTrack.Over(LocalDay.Of(new LocalDate(2026, 10, 20), crest.Point, null));
        var phases = TwilightOnRidge.ByMinute(track, crest, new Haze(0.05));

        Assert.Equal((24 * 60) + 1, phases.Count);
        for (var minute = 0; minute < phases.Count; minute += 7)
        {
            var altitudeDeg = Sun.At(track.At(minute * 60)).SeenFrom(crest).AirlessAltitude.Degrees;
            // From 2600 m the sun's upper limb passes the sea's horizon (dip 1.5°, refraction over 0.8°) near −2.6°.
            if (altitudeDeg > -2.3) Assert.Empty(phases[minute]);
            // AMS Glossary, alpenglow: the afterglow ends at −9°.
            if (altitudeDeg is < -2.9 and > -8.99) Assert.Contains(Phase.Afterglow, phases[minute]);
            if (altitudeDeg < -9.01) Assert.DoesNotContain(Phase.Afterglow, phases[minute]);
            Assert.Equal(altitudeDeg is < -6 and > -12, phases[minute].Contains(Phase.NauticalTwilight));
        }
    }
}
