using System.Text.Json;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Made scenes with windows by closed form, from Reference/picture/scenes.json (see its PROVENANCE.md): walls that are lit when the beam lifts them enough (A), and a ridge over a floor behind which a wall
/// keeps the sun away (C), by the engine's whole chart with the scene's own sun.</summary>
public class MadeSceneTests
{
    private const double CellM = 10;
    // Where the sun stands so low in the south on some day of the year.
    private const double SouthDeg = 67;
    private const double LengthS = 4800;

    private static readonly JsonElement[] Cases = [.. ReferenceData.Json("picture/scenes.json").RootElement.EnumerateArray()];

    public static TheoryData<string> Walls => [.. Cases.Select(IdOf).Where(id => id[0] == 'A')];

    public static TheoryData<string> Floors => [.. Cases.Select(IdOf).Where(id => id[0] == 'C')];

    // The wall's own normal and sky view, (1 + cos S)/2 as the scenes have it, at the altitude told: the direct part is just what lifts it by so many stops.
    [Theory]
    [MemberData(nameof(Walls))]
    public void A_wall_is_lit_from_the_altitude_at_which_the_beam_lifts_it_enough(string id)
    {
        var (scene, sun) = (Case(id), SunOf(id));
        var (grid, expected) = (scene.GetProperty("grid"), scene.GetProperty("expected"));
        var stops = double.Parse(scene.GetProperty("scene").GetString()!.Split("lit at ")[1].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
        var slope = Angle.FromDegrees(grid.GetProperty("S_deg").GetDouble());
        var aspect = Angle.FromDegrees(grid.GetProperty("aspect_deg").GetDouble());
        var normal = new GroundNormal(slope.Sin() * aspect.Sin(), slope.Sin() * aspect.Cos(), slope.Cos());
        var view = (1 + slope.Cos()) / 2;
        Assert.Equal(stops, LiftAt(expected.GetProperty("t_s").GetDouble()), 0.005);
        Assert.Equal(expected.GetProperty("need_direct_lx").GetDouble(), new GroundLight(0, sun.SkyLux * view).DirectNeededLux(stops), 0.001 * expected.GetProperty("need_direct_lx").GetDouble());
        Assert.True(LiftAt(expected.GetProperty("t_s").GetDouble() - 5) < stops && LiftAt(expected.GetProperty("t_s").GetDouble() + 5) > stops);

        double LiftAt(double seconds)
        {
            var (azimuth, altitude, beamLux) = sun.At(seconds);
            var cos = normal.CosTo((altitude.Cos() * azimuth.Sin(), altitude.Cos() * azimuth.Cos(), altitude.Sin()));
            return GroundLight.Of(beamLux, 1, cos, sun.SkyLux, view).LiftStops;
        }
    }

    [Theory]
    [MemberData(nameof(Floors))]
    public void Light_runs_down_the_ridge_and_over_the_floor_as_the_closed_form_has_it(string id)
    {
        var (scene, expected) = (Case(id), Case(id).GetProperty("expected"));
        var window = Assert.Single(PictureStretches.Of(ChartOf(scene), PictureKind.LitRidgeOverDarkGround));
        // The scenes have one altitude of the sun for all ground; here the vertical leans, so that it stands as much lower over the foot of the ridge as that is farther north.
        var sun = SunOf(id);
        var perSecondRad = (sun.At(60).Altitude.Radians - sun.At(0).Altitude.Radians) / 60;
        var leansS = scene.GetProperty("grid").GetProperty("d1_m").GetDouble() / SightModel.EarthRadiusM / perSecondRad;
        Assert.Equal(expected.GetProperty("window_opens_t_s_curved_earth_k0_13").GetDouble() + leansS, window.StartS, 1.0);
        if (expected.GetProperty("valley_in_frame").GetBoolean()) Assert.InRange(window.EndS - expected.GetProperty("window_closes_t_s_curved_earth_k0_13").GetDouble(), -2, leansS + 1);
        else Assert.Equal(LengthS, window.EndS);
    }

    private static LightChart ChartOf(JsonElement made)
    {
        var (grid, frame) = (made.GetProperty("grid"), made.GetProperty("frame"));
        var (footM, topM, backM, wallM) = (grid.GetProperty("d1_m").GetDouble(), grid.GetProperty("H_m").GetDouble(), grid.GetProperty("b_m").GetDouble(), grid.GetProperty("Hb_m").GetDouble());
        var rise = Math.Tan(grid.GetProperty("S_deg").GetDouble() * Math.PI / 180);
        var eyeM = double.Parse(made.GetProperty("scene").GetString()!.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);
        var floor = Place.FromDegrees(SouthDeg, 7, 0);
        var cellDeg = CellM / Geodesic.Between(floor.Point, GeoPoint.FromDegrees(SouthDeg + 0.01, 7)).Distance.Metres * 0.01;
        var (south, north) = ((int)((backM + 300) / CellM), (int)((footM + (topM / rise) + 300) / CellM));
        var posts = new GridPosts(south + north + 1, 121, SouthDeg + (north * cellDeg), 7 - (60 * cellDeg), cellDeg, cellDeg);
        var heights = new float[posts.Rows * posts.Columns];
        for (var i = 0; i < heights.Length; i++)
        {
            var y = (north - (i / posts.Columns)) * CellM;
            heights[i] = (float)(y <= -backM + 1e-6 ? wallM : Math.Max(0, Math.Min(topM, (y - footM) * rise)));
        }
        var thresholds = Geometry.Alone with
        {
            RidgeFrom = Length.FromMetres(footM),
            CrestBand = Angle.FromDegrees(20),
            CrestLit = 1,
            ColumnsLit = 0.9,
            ValleyLit = 0.2,
            ValleyPart = 0,
            DiscShare = 0.5,
        };
        var eye = Place.FromDegrees(SouthDeg, 7, eyeM);
        var bounds = new PictureBounds(Angle.FromDegrees(frame.GetProperty("bottom_deg").GetDouble()), Angle.FromDegrees(frame.GetProperty("top_deg").GetDouble()));
        var scene = Scene.Of(new ElevationGrid(posts, heights, "made"), SightModel.Usual, eye, BearingSpan.FromDegrees(359.5, 0.5), thresholds, framing: _ => bounds);
        return LightChart.Over(scene, TrackOf(made, eye), BeamAir.Usual, null, null, TestContext.Current.CancellationToken);
    }

    // The scenes have no air: the sun is put where air makes it seem to stand where they have it.
    private static SunTrack TrackOf(JsonElement made, Place eye)
    {
        var (sun, frame) = (SunOf(IdOf(made)), new ObserverFrame(eye));
        var begin = Instant.FromUtc(2026, 10, 20, 6, 0);
        return SunTrack.Of(new Interval(begin, begin + Duration.FromSeconds(LengthS)), seconds =>
        {
            var (azimuth, altitude, _) = sun.At(seconds);
            return frame.EarthFixedAu(Azimuth.FromDegrees(azimuth.Degrees), Refraction.ToAirless(altitude, eye.Height), 1);
        });
    }

    private static JsonElement Case(string id) => Cases.Single(made => IdOf(made) == id);

    private static string IdOf(JsonElement made) => made.GetProperty("id").GetString()!;

    private static MadeSun SunOf(string id) => new([.. ReferenceData.Rows("picture/scenes_sun.csv").Where(row => row["case"] == id)]);

    /// <summary>A made sun, straight between the rows of its table.</summary>
    private sealed class MadeSun(IReadOnlyList<ReferenceRow> rows)
    {
        public double SkyLux => rows[0].Number("sky_lx");

        public (Angle Azimuth, Angle Altitude, double BeamLux) At(double seconds)
        {
            var i = Math.Clamp((int)(seconds / 60), 0, rows.Count - 2);
            var share = (seconds - rows[i].Number("t_s")) / (rows[i + 1].Number("t_s") - rows[i].Number("t_s"));
            return (Angle.FromDegrees(Between("azimuth_deg")), Angle.FromDegrees(Between("altitude_deg")), Between("beam_normal_lx"));

            double Between(string column) => rows[i].Number(column) + (share * (rows[i + 1].Number(column) - rows[i].Number(column)));
        }
    }
}
