using System.Collections.Concurrent;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Direct light over a day on the real tile, against brute-force values (Reference/terrain/PROVENANCE.md,
/// columns *_step16; rows whose horizon is an artefact of the grid's edge are left out, as it says).</summary>
public class FirstLastLightTests
{
    private static readonly SightModel NothingBeyond = SightModel.Usual with { BeyondGrid = null };

    /// <summary>Nearer than this the reference's step, a sixteenth of a cell, is coarse: against one of 0.1 m it lowers the
    /// horizons of FL061, FL012 and FL036 (93 m and 116 m away) by 0.037°, 0.043° and 0.022°. There the moment is
    /// checked against a horizon of smaller steps instead.</summary>
    private const double NearM = 1000;

    public static TheoryData<string> Limbs => ["upper", "centre", "lower"];

    [TheoryNeeds<SharedTiles>]
    [MemberData(nameof(Limbs))]
    public void Light_comes_and_goes_when_the_reference_says(string limb)
    {
        var (counted, timed, near, worst) = (0, 0, 0, (Id: "", Seconds: 0.0));
        foreach (var row in ReferenceData.Rows("terrain/first_last_light.csv"))
        {
            if (IsArtefact(row, limb)) continue;
            var intervals = IntervalsOf(row, limb);
            if (!IsNear(row, limb, "first") && !IsNear(row, limb, "last") && row.Flag($"{limb}_n_stable_0p02") && row[$"{limb}_n_intervals"] == row[$"{limb}_n_intervals_step16"])
            {
                Assert.True((int)row.Number($"{limb}_n_intervals") == intervals.Count, $"{row["id"]} has {row[$"{limb}_n_intervals"]} {limb} intervals; found {intervals.Count}");
                counted++;
            }
            if (intervals.Count == 0) continue;
            foreach (var (name, found) in (ReadOnlySpan<(string, Instant)>)[("first", intervals[0].Time.Start), ("last", intervals[^1].Time.End)])
            {
                if (!row.Has($"{limb}_{name}_utc_step16") || !row.Flag($"{limb}_n_stable_0p02")) continue;
                var expected = Instants.Parse(row[$"{limb}_{name}_utc_step16"]).Value;
                var rateDegPerMin = Math.Abs(row.Number($"{limb}_{name}_rate_deg_per_min"));
                if (IsNear(row, limb, name))
                {
                    Assert.Equal(0, MissDeg(row, limb, found), 0.02);
                    near++;
                    continue;
                }
                var differs = Math.Abs((found - expected).TotalSeconds);
                var allowedS = rateDegPerMin >= 0.05 ? Math.Max(3, 0.02 / rateDegPerMin * 60) : SlowToleranceS(row, $"{limb}_{name}");
                Assert.True(differs <= allowedS, $"{row["id"]} {limb} {name}: {found} instead of {expected}, {allowedS} s allowed");
                if (rateDegPerMin >= 0.05 && differs > worst.Seconds) worst = ($"{row["id"]} {name}", differs);
                timed++;
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"direct light, {limb}: {counted} days counted, {timed} moments timed, {near} near ones checked otherwise, worst {worst}");
        Assert.True(counted > 30 && timed > 80 && near > 10, $"only {counted} days and {timed} moments were compared");
    }

    private static readonly InstantPattern Instants = InstantPattern.ExtendedIso;

    private static readonly ConcurrentDictionary<string, DirectLight> Days = new();

    private static IReadOnlyList<LitInterval> IntervalsOf(ReferenceRow row, string limb)
    {
        var light = Days.GetOrAdd(row["id"], _ => DayOf(row));
        return limb switch { "upper" => light.AnyLimb, "centre" => light.Centre, _ => light.WholeDisc };
    }

    private static DirectLight DayOf(ReferenceRow row)
    {
        var point = GeoPoint.FromDegrees(row.Number("lat_deg"), row.Number("lon_deg"));
        var start = Instants.Parse(row["window_start_utc"]).Value;
        var day = SunTrack.Over(new Interval(start, start + Duration.FromDays(1)), row.Number("delta_t_s"));
        return DirectLight.On(new Place(point, SharedData.Tile.HeightAt(point)!.Value), SharedData.Tile, NothingBeyond, day);
    }

    private static bool IsNear(ReferenceRow row, string limb, string moment) =>
        row.Has($"{limb}_{moment}_horizon_distance_m") && row.Number($"{limb}_{moment}_horizon_distance_m") < NearM;

    /// <summary>By how much a limb misses the horizon of small steps at a moment.</summary>
    private static double MissDeg(ReferenceRow row, string limb, Instant moment)
    {
        var point = GeoPoint.FromDegrees(row.Number("lat_deg"), row.Number("lon_deg"));
        var place = new Place(point, SharedData.Tile.HeightAt(point)!.Value);
        var sun = Sun.At(moment, row.Number("delta_t_s")).SeenFrom(place);
        var horizonDeg = SlowHorizon.Of(SharedData.Tile, place, sun.Azimuth, 0.25, 3000).AngleDeg;
        var limbDeg = sun.Semidiameter.Degrees * (limb switch { "upper" => 1, "centre" => 0, _ => -1 });
        return Refraction.ToApparent(sun.AirlessAltitude, place.Height).Degrees + limbDeg - horizonDeg;
    }

    private static bool IsArtefact(ReferenceRow row, string limb) =>
        (from moment in (string[])["first", "last"]
         from flag in (string[])["refraction_clamped", "horizon_below_sea_dip"]
         select row[$"{limb}_{moment}_{flag}"]).Contains("1");

    /// <summary>Where the sun grazes the ridge: by how much the moment moves when everything stands 0.02° higher or lower.</summary>
    private static double SlowToleranceS(ReferenceRow row, string moment)
    {
        if (!row.Has($"{moment}_utc_if_f_minus_0p02")) return double.PositiveInfinity;
        var middle = Instants.Parse(row[$"{moment}_utc"]).Value;
        return 3 + Math.Max(From("plus"), From("minus"));

        double From(string side) => Math.Abs((Instants.Parse(row[$"{moment}_utc_if_f_{side}_0p02"]).Value - middle).TotalSeconds);
    }
}
