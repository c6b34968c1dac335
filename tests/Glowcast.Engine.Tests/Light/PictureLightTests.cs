using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Direction, relief and black point over the hand-made valley, whose slopes are planes.</summary>
public class PictureLightTests
{
    private const double ColumnM = 63.9;

    private static readonly LightThresholds Thresholds = Geometry.Alone with { RidgeFrom = Length.FromKilometres(8) };

    private static readonly Interval Autumn = LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null);

    private static readonly Lazy<LightChart> Chart = new(() => LightChart.Over(
        Scene.Of(
            Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(262, 278), Thresholds,
            framing: _ => new PictureBounds(Angle.FromDegrees(-10), Angle.FromDegrees(10))), Autumn)!);

    [Theory]
    [InlineData(0.3, 0.2, 40, 250)]
    [InlineData(-0.5, 0.1, 10, 100)]
    [InlineData(1.2, -0.8, 5, 350)]
    public void A_plane_faces_the_sun_by_the_angle_of_its_normal(double east, double north, double altitudeDeg, double azimuthDeg)
    {
        var grid = Grids.Square(46, 7, (row, column) => 1000 + (east * 63.956 * column) - (north * 92.617 * row));
        var (altitude, azimuth) = (Angle.FromDegrees(altitudeDeg), Angle.FromDegrees(azimuthDeg));
        (double East, double North, double Up) sun = (azimuth.Sin() * altitude.Cos(), azimuth.Cos() * altitude.Cos(), altitude.Sin());
        var expected = ((-east * sun.East) - (north * sun.North) + sun.Up) / Math.Sqrt(1 + (east * east) + (north * north));
        Assert.Equal(expected, new GroundFacing(grid).CosTo(GeoPoint.FromDegrees(46.5, 7.5), sun), 0.002);
    }

    [Fact]
    public void In_the_morning_the_eastern_face_is_in_full_light_and_the_shade_is_its_black()
    {
        var window = WindowSearch.Windows(Chart.Value)[0];
        var picture = At(window.Middle, visibilityKm: 250);

        var relief = picture.Relief!.Value;
        Assert.Equal(0, relief.OwnShadow, 0.005);
        Assert.Equal(ReliefReading.Modelled, relief.Reading);
        // The face rises 100 m a column.
        var sun = Sun.At(window.Middle).SeenFrom(Valley.WestCrest);
        var slope = Angle.FromRadians(Math.Atan(100 / ColumnM));
        var altitude = Refraction.ToApparent(sun.AirlessAltitude, Valley.WestCrest.Height);
        var cos = (slope.Sin() * Math.Sin(sun.Azimuth.Radians) * altitude.Cos()) + (slope.Cos() * altitude.Sin());
        Assert.Equal(cos, relief.Incidence!.Value, 0.01);
        // The eastern ridge's shadow falls by tan a / sin A and meets the face, which rises 100 m a column, at this column.
        var falls = ColumnM * altitude.Tan() / Math.Sin(sun.Azimuth.Radians);
        var column = (Valley.WestCrestM - Valley.EastCrestM + (Valley.EastRidgeColumn * falls) + (100 * Valley.WestRidgeColumn)) / (100 + falls);
        var edge = AltitudeAt(column, Valley.WestCrestM - (100 * (column - Valley.WestRidgeColumn)));
        var bottom = AltitudeAt(Valley.EastRidgeColumn - 1 - (8000 / ColumnM), Valley.FloorM);
        Assert.Equal((edge - bottom) / (AltitudeAt(Valley.WestRidgeColumn, Valley.WestCrestM) - bottom), relief.CastShadow, 0.03);

        var point = picture.BlackPoint!;
        Assert.Equal(12.8, point.Distance.Kilometres, 0.3);
        var light = Ridge.At(window.Middle);
        Assert.Equal(Math.Log2(0.8 * ((relief.Incidence.Value * light.DirectLux) + light.DiffuseLux) / (0.15 * light.DiffuseLux)), point.BareStops, 0.01);
        Assert.Equal(BlackPointVerdict.Has, point.Verdict);
        Assert.True(At(window.Middle, visibilityKm: 15).BlackPoint!.Verdict == BlackPointVerdict.None);
        Assert.All(picture.Bearings, bearing => Assert.Equal(LightDirection.Front, bearing.Direction));
        Assert.Equal(picture.Bearings[0].Bearing.TurnTo(sun.Azimuth).Abs().Degrees, picture.Bearings[0].SunFromView.Degrees, 0.2);

        static double AltitudeAt(double column, double heightM) =>
            Math.Atan((heightM - Valley.Lookout.Height.Metres) / ((Valley.EastRidgeColumn - 1 - column) * ColumnM));

    }

    [Fact]
    public void In_the_evening_it_lies_in_its_own_shadow_and_before_dawn_in_that_of_the_earth()
    {
        var evening = At(Autumn.Start + Duration.FromHours(16.5));
        // The floor before it, a sixth of what is seen, faces the sky; there the ridge's shadow lies.
        Assert.Equal(5.0 / 6, evening.Relief!.Value.OwnShadow, 0.03);
        Assert.Equal(1, evening.Relief.Value.Shadow, 0.005);
        Assert.Equal(ReliefReading.Dark, evening.Relief.Value.Reading);

        var dawn = At(Chart.Value.Track.Interval.Start + Duration.FromMinutes(3));
        // With the sun under the horizontal only the steep face still turns towards it.
        Assert.Equal(5.0 / 6, dawn.Relief!.Value.CastShadow, 0.03);
        Assert.Equal(1, dawn.Relief.Value.Shadow, 6);
        Assert.Null(dawn.BlackPoint);
        Assert.All(dawn.Bearings, bearing => Assert.Null(bearing.PathInSun));
    }

    [Fact]
    public void Own_shadow_cast_shadow_and_light_add_up_by_height_in_the_picture()
    {
        var together = RidgeShadow.Together([new RidgeShadow(1, 0, null, 2), new RidgeShadow(0, 1, null, 1), new RidgeShadow(0, 0, 0.5, 3), new RidgeShadow(0, 0, 0.8, 4)])!.Value;
        Assert.Equal(0.2, together.OwnShadow, 12);
        Assert.Equal(0.1, together.CastShadow, 12);
        Assert.Equal(0.3, together.Shadow, 12);
        Assert.Equal(ReliefReading.Modelled, together.Reading);
        Assert.Equal(((3 * 0.5) + (4 * 0.8)) / 7, together.Incidence!.Value, 12);
        Assert.Null(RidgeShadow.Together([]));
    }

    [Fact]
    public void Air_in_the_shadow_of_the_eastern_ridge_shines_half()
    {
        // From the floor at the ridge's foot: the line of sight climbs out of the shadow some kilometres on.
        var track = SunTrack.Over(Autumn);
        var eye = Place.FromDegrees(46.5, 7 + (690 / 1200.0), Valley.FloorM + 2);
        var noonS = track.LengthS / 2;
        var seconds = Enumerable.Range(0, (int)noonS).First(second => Apparent(second).Degrees > 5);
        var sun = Sun.At(track.At(seconds)).SeenFrom(eye);
        var distance = Length.FromMetres((690 - Valley.WestRidgeColumn) * ColumnM);
        var altitude = Angle.FromRadians(Math.Atan((Valley.WestCrestM - eye.Height.Metres) / distance.Metres));
        var air = new Airlight(Length.FromKilometres(40), 500);

        var share = new SightAir(eye, new SunOverGround(track, Valley.Grid, SightModel.Usual), SightModel.Usual, seconds)
            .SunlitShare(Azimuth.FromDegrees(270), distance, altitude, air);

        // The shadow's edge falls westwards by tan a / sin A from the crest, ten columns behind the eye.
        var falls = Apparent(seconds).Tan() / Math.Sin(sun.Azimuth.Radians);
        var outM = (Valley.EastCrestM - (10 * ColumnM * falls) - eye.Height.Metres) / (altitude.Tan() + falls);
        Assert.InRange(outM, 2000, 6000);
        var (through, out0) = (air.Transmittance(distance), air.Transmittance(Length.FromMetres(outM)));
        Assert.Equal((out0 - through) / (1 - through), share, 0.06);

        Angle Apparent(double second) => Refraction.ToApparent(Sun.At(track.At(second)).SeenFrom(eye).AirlessAltitude, eye.Height);
    }

    private static RidgeBrightness Ridge => RidgeBrightness.Of(Chart.Value.Scene, Chart.Value.Track, new Haze(0.05))!;

    private static PictureLight At(Instant instant, double visibilityKm = 80) =>
        PictureLight.At(Chart.Value, instant, Ridge.At(instant), Length.FromKilometres(visibilityKm), Reflectances.Usual);
}
