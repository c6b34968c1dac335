using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Against brute-force values on the real tile (Reference/terrain/PROVENANCE.md: definitions and tolerances).</summary>
public class HorizonReferenceTests
{
    private const double FarM = 2000;
    private const double CellM = 92.6;

    /// <summary>The reference search ends here.</summary>
    private const double SearchedM = 80_000;

    private static readonly SightModel NothingBeyond = SightModel.Usual with { BeyondGrid = null };

    [FactNeeds<SharedTiles>]
    public void Horizons_are_the_greatest_angle_on_the_bilinear_surface()
    {
        var sights = new SightLines(SharedData.Tile, NothingBeyond);
        var errors = (
            from row in ReferenceData.Rows("terrain/horizon_angles.csv")
            where row.Number("horizon_exact_distance_m") < SearchedM - 100
            let point = GeoPoint.FromDegrees(row.Number("lat_deg"), row.Number("lon_deg"))
            let eye = new Place(point, SharedData.Tile.HeightAt(point)!.Value)
            let horizon = sights.HorizonOf(eye, Azimuth.FromDegrees(row.Number("azimuth_deg")))
            select (
                Id: row["id"],
                Error: horizon.Altitude!.Value.Degrees - row.Number("horizon_exact_deg"),
                IsFar: row.Number("horizon_exact_distance_m") >= FarM)).ToList();

        Assert.True(errors.Count > 390);
        var far = errors.Where(row => row.IsFar).ToList();
        var rms = Math.Sqrt(far.Average(row => row.Error * row.Error));
        var all = errors.Select(row => Math.Abs(row.Error)).Order().ToList();
        var worst = errors.MaxBy(row => Math.Abs(row.Error));
        TestContext.Current.TestOutputHelper?.WriteLine($"horizon: rms beyond 2 km {rms:0.00000}°, p95 {all[(int)(0.95 * all.Count)]:0.00000}°, worst {worst}");
        Assert.True(rms <= 0.003, $"rms beyond 2 km is {rms}°");
        Assert.True(all[(int)(0.95 * all.Count)] <= 0.03, $"95th percentile is {all[(int)(0.95 * all.Count)]}°");
        Assert.True(Math.Abs(worst.Error) <= 0.01, $"the worst is {worst}");
    }

    [FactNeeds<SharedTiles>]
    public void Without_refraction_far_horizons_sink_as_the_reference_says()
    {
        var bent = new SightLines(SharedData.Tile, NothingBeyond);
        var straight = new SightLines(SharedData.Tile, NothingBeyond with { RefractionK = 0 });
        foreach (var row in ReferenceData.Rows("terrain/horizon_angles.csv").Where(row => row.Number("horizon_distance_m") > 10_000))
        {
            // Only where the same crest is the horizon either way.
            if (Math.Abs(row.Number("horizon_distance_m") - row.Number("horizon_k0_distance_m")) > 1) continue;
            var point = GeoPoint.FromDegrees(row.Number("lat_deg"), row.Number("lon_deg"));
            var eye = new Place(point, SharedData.Tile.HeightAt(point)!.Value);
            var azimuth = Azimuth.FromDegrees(row.Number("azimuth_deg"));
            var sinks = (straight.HorizonOf(eye, azimuth).Altitude!.Value - bent.HorizonOf(eye, azimuth).Altitude!.Value).Degrees;
            Assert.Equal(row.Number("horizon_k0_deg") - row.Number("horizon_deg"), sinks, 0.001);
        }
    }

    [FactNeeds<SharedTiles>]
    public void Lines_of_sight_agree_with_the_reference()
    {
        var sights = new SightLines(SharedData.Tile, NothingBeyond);
        var (sound, agreeing, worstMargin) = (0, 0, 0.0);
        foreach (var row in ReferenceData.Rows("terrain/visibility.csv"))
        {
            var eye = Place.FromDegrees(row.Number("viewpoint_lat_deg"), row.Number("viewpoint_lon_deg"), row.Number("eye_height_m"));
            var target = GeoPoint.FromDegrees(row.Number("target_lat_deg"), row.Number("target_lon_deg"));
            var sight = sights.SightTo(eye, target)!.Value;

            Assert.Equal(row.Number("distance_m"), sight.Line.Distance.Metres, 0.006);
            Assert.Equal(row.Number("azimuth_deg"), sight.Line.Bearing.Degrees, 0.00001);
            Assert.Equal(row.Number("target_angle_deg"), sight.Altitude.Degrees, 0.00002);

            var margin = sight.Margin!.Value.Degrees;
            // Samples can only miss the highest ground, never overstate it. Where it is within 500 m of the eye, or at the
            // very end of the search, they miss more than the tolerance; there only the side of the error is checked.
            Assert.True(margin < row.Number("margin_sixteenth_step_deg") + 0.0005, $"{row["id"]}: {margin} above the sampled margin");
            var blocksAtM = sight.HighestBetweenDistance!.Value.Metres;
            var isSettled = blocksAtM > 500 && blocksAtM < sight.Line.Distance.Metres - (1.5 * CellM);
            if (isSettled && Math.Abs(row.Number("margin_deg") - row.Number("margin_sixteenth_step_deg")) < 0.01)
                worstMargin = Math.Max(worstMargin, Math.Abs(margin - row.Number("margin_sixteenth_step_deg")));
            if (!row.Flag("variants_agree")) continue;
            sound++;
            if (sight.IsVisible == row.Flag("visible")) agreeing++;
            else Assert.True(Math.Abs(row.Number("margin_deg")) < 0.03, $"{row["id"]} is clear cut, and wrong");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"sight: {agreeing} of {sound} agree, worst margin difference {worstMargin:0.0000}°");
        Assert.True(sound > 500);
        Assert.True(agreeing >= 0.99 * sound, $"{agreeing} of {sound} agree");
        Assert.True(worstMargin < 0.02, $"a margin differs by {worstMargin}°");
    }
}
