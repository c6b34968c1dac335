using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class PhasesTests
{
    private static readonly Angle Semidiameter = Angle.FromArcminutes(16);

    // Reference/sky/dip.csv: altitude of the sun's centre when its upper limb (16′) stands on the refracted sea horizon.
    [Fact]
    public void Direct_light_ends_when_the_upper_limb_leaves_the_sea_horizon() => Assert.All(ReferenceData.Rows("sky/dip.csv"), row =>
    {
        var height = Length.FromMetres(row.Number("observer_height_m"));
        var horizon = -Refraction.Dip(height, Length.FromMetres(row.Number("horizon_height_m")));
        var last = Phases.Of(height, horizon, Semidiameter, Haze.None)[Phase.FirstOrLastDirectLight].To;
        Assert.Equal(row.Number("sun_centre_true_altitude_when_upper_limb_on_horizon_SD16_deg"), last.Degrees, 3e-5);
    });

    [Fact]
    public void Direct_light_passes_into_afterglow_without_a_gap()
    {
        var height = Length.FromMetres(3000);
        var phases = Phases.Of(height, -Refraction.Dip(height, Length.Zero), Semidiameter, new Haze(0.05));
        Assert.Equal(phases[Phase.DirectLight].To, phases[Phase.FirstOrLastDirectLight].From);
        Assert.Equal(phases[Phase.FirstOrLastDirectLight].To, phases[Phase.Afterglow].From);
        Assert.Equal(phases[Phase.DirectLowSun].To, phases[Phase.Afterglow].From);
        Assert.Equal(phases[Phase.CivilTwilight].To, phases[Phase.NauticalTwilight].From);
        Assert.Equal(phases[Phase.NauticalTwilight].To, phases[Phase.AstronomicalTwilight].From);
        Assert.Equal(phases[Phase.AstronomicalTwilight].To, phases[Phase.Night].From);
    }

    [Fact]
    public void Low_sun_begins_where_the_beam_has_lost_two_stops()
    {
        var height = Length.FromMetres(2000);
        var haze = new Haze(0.05);
        var begins = Phases.Of(height, Angle.Zero, Semidiameter, haze)[Phase.DirectLowSun].From;
        Assert.Equal(2, DirectBeam.At(Refraction.ToApparent(begins, height), height, haze).StopsLost, 4);
    }

    [Fact]
    public void Behind_a_high_skyline_there_is_neither_low_sun_nor_afterglow_by_day()
    {
        var phases = Phases.Of(Length.FromMetres(1000), Angle.FromDegrees(25), Semidiameter, new Haze(0.05));
        Assert.DoesNotContain(Phase.DirectLowSun, phases);
        Assert.DoesNotContain(phases, phase => phase.Value.Contains(Angle.FromDegrees(10)));
    }

    // AMS Glossary of Meteorology: alpenglow's third stage −5° to −9°, purple light strongest about −4°, dark segment to −7°.
    [Theory]
    [InlineData(-4, new[] { Phase.Afterglow, Phase.PurpleLight, Phase.DarkSegment, Phase.AntitwilightArch, Phase.CivilTwilight })]
    [InlineData(-8, new[] { Phase.Afterglow, Phase.BrightSegment, Phase.NauticalTwilight })]
    [InlineData(-20, new[] { Phase.Night })]
    public void Phases_by_the_sea_are_those_of_the_glossary(double altitudeDeg, Phase[] expected) =>
        Assert.Equal(
            expected,
            Phases.Of(Length.Zero, Angle.Zero, Semidiameter, Haze.None)
                .Where(phase => phase.Value.Contains(Angle.FromDegrees(altitudeDeg))).Select(phase => phase.Key).Order());
}
