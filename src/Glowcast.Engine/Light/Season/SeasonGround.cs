using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>The part of a scene's ground that stands for all of it through a season, with its horizons.</summary>
/// <remarks>Every other row of the crest band, and at most so many patches of the rest of the ridge and of the valley, evenly by their weight.</remarks>
internal sealed class SeasonGround
{
    private const int CrestRowsKept = 2;
    private const int RidgePatchesKept = 600;
    private const int ValleyPatchesKept = 1200;
    private const double SunRadPerLook = ClearanceTrace.SunRadPerS * SeasonSun.LookS;
    private const double SteepestSkyline = 1.5;

    private readonly Scene scene;
    private readonly BeamAir air;
    private readonly SeasonMember[] members;
    private readonly HorizonTable table;
    private readonly double level;
    private readonly LitRule rule;
    private readonly double lowestM;
    private readonly double highestM;
    private readonly double reachRad;

    private SeasonGround(Scene scene, SeasonMember[] members, HorizonTable table, LitRule rule, BeamAir air)
    {
        (this.scene, this.members, this.table, this.rule, this.air) = (scene, members, table, rule, air);
        (lowestM, highestM) = (members.Min(member => member.Patch.Ground.Height.Metres), members.Max(member => member.Patch.Ground.Height.Metres));
        reachRad = members.Max(member => double.Hypot(member.Offset.NorthRad, member.Offset.EastRad));
        level = Disc.HeightForShareOfArea(scene.Thresholds.DiscShare);
        CrestColumns = [.. Enumerable.Range(0, members.Length).Where(i => members[i].Patch.Role == PatchRole.Crest)
            .GroupBy(i => members[i].Patch.Column).Select(column => (IReadOnlyList<int>)[.. column])];
        Ridge = [.. Enumerable.Range(0, members.Length).Where(i => members[i].Patch.Role != PatchRole.Valley)];
        Valley = [.. Enumerable.Range(0, members.Length).Where(i => members[i].Patch.Role == PatchRole.Valley)];
    }

    /// <summary>The crest band, column by column.</summary>
    public IReadOnlyList<IReadOnlyList<int>> CrestColumns { get; }

    /// <summary>The crest band and the ridge under it.</summary>
    public IReadOnlyList<int> Ridge { get; }

    public IReadOnlyList<int> Valley { get; }

    public int Count => members.Length;

    public static SeasonGround Of(Scene scene, BeamAir air, IProgress<double>? progress, CancellationToken cancel)
    {
        var middle = MiddleOf(scene).Point;
        var (facing, horizons) = (scene.Facing, scene.Horizons(progress, cancel));
        return new SeasonGround(
            scene,
            [.. Chosen(scene).Select(chosen => new SeasonMember(
                chosen.Index, chosen.Patch, GroundOffset.Between(middle, chosen.Patch.Ground.Point), facing[chosen.Index].SkyView,
                LitGround.EarthFixed(chosen.Patch.Ground.Point, facing[chosen.Index].Normal), facing[chosen.Index].Normal.Up))],
            horizons, scene.RuleFor(air, sunDistanceAu: 1), air);
    }

    /// <summary>The place about which the sun of a day is worked out: among the crest, which decides.</summary>
    public static Place MiddleOf(Scene scene)
    {
        var crest = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).ToList();
        return crest.Count > 0 ? crest[crest.Count / 2].Ground : scene.Lookout;
    }

    public GroundPatch Patch(int member) => members[member].Patch;

    public GroundOffset Offset(int member) => members[member].Offset;

    /// <summary>Which way a member faces.</summary>
    public PatchGround Facing(int member) => scene.Facing[members[member].Index];

    /// <summary>How far moments may be off at which the beam decides.</summary>
    public BeamDoubt BeamDoubtOver(SunTrack track) => new(track, rule, air);

    /// <summary>What the beam of one day needs at each look, at least and at most over all the ground.</summary>
    public BeamOfDay BeamOf(SeasonSun sun) => new(sun, rule, lowestM, highestM, reachRad);

    /// <summary>When a member is seen to be lit.</summary>
    public List<Stretch> Lit(int member, SeasonSun sun, BeamOfDay beam)
    {
        var (one, lit) = (members[member], new List<Stretch>());
        foreach (var stretch in InSun(member, sun)) AddLit(lit, stretch, one, beam);
        return lit;
    }

    private static void AddLit(List<Stretch> lit, Stretch inSun, in SeasonMember member, BeamOfDay beam)
    {
        var (beforeS, before) = (inSun.StartS, beam.IsLit(inSun.StartS, member));
        double? startS = before ? beforeS : null;
        for (var look = (int)(beforeS / SeasonSun.LookS) + 1; beforeS < inSun.EndS; look++)
        {
            var atS = Math.Min(look * SeasonSun.LookS, inSun.EndS);
            var at = atS < inSun.EndS ? beam.IsLit(look, member) : beam.IsLit(atS, member);
            if (before != at)
            {
                var crossS = beam.CrossS(beforeS, before, atS, member);
                if (startS is { } begun && crossS > begun) lit.Add(new Stretch(begun, crossS));
                startS = startS is null ? crossS : null;
            }
            (beforeS, before) = (atS, at);
        }
        if (startS is { } open && open < inSun.EndS) lit.Add(new Stretch(open, inSun.EndS));
    }

    /// <summary>When a member sees enough of the disc.</summary>
    private List<Stretch> InSun(int member, SeasonSun sun) =>
        Stretch.Above(
            sun.Looks, SeasonSun.LookS, look => RoughRad(member, sun, look), look => CrossingS(member, sun, look), (look, clearanceRad) => Ahead(sun, look, clearanceRad));

    // The sun moves by 15° an hour at most, in azimuth by that over the cosine of its altitude, and the horizon under it rises or falls by so many
    // degrees a degree (docs/model.md, L3).
    private static int Ahead(SeasonSun sun, int look, double clearanceRad)
    {
        var mostRad = SunRadPerLook * (1 + (SteepestSkyline / Math.Max(0.02, sun.CosAltitude(look))));
        return Math.Max(1, (int)(Math.Abs(clearanceRad) / mostRad));
    }

    // Between airless altitudes, where the disc is round; right to half a disc, enough to find the two looks to ask closely.
    private double RoughRad(int member, SeasonSun sun, int look)
    {
        var offset = members[member].Offset;
        return sun.AirlessRad(look, offset) - HorizonRad(member, sun, look) - (level * sun.SemidiameterRad);
    }

    // Between apparent altitudes, as everywhere else (docs/model.md, L2); the straight line through them may cross just outside.
    private double CrossingS(int member, SeasonSun sun, int look)
    {
        var (before, after) = (CloseRad(member, sun, look - 1), CloseRad(member, sun, look));
        var share = before == after ? 0.5 : before / (before - after);
        return SeasonSun.LookS * (look - 1 + Math.Clamp(share, -0.5, 1.5));
    }

    /// <summary>Whether a member sees enough of the disc at a moment [s], whichever way it faces.</summary>
    public bool IsInSun(int member, SeasonSun sun, double seconds)
    {
        var at = Math.Clamp(seconds / SeasonSun.LookS, 0, sun.Looks - 1);
        var look = Math.Min((int)at, Math.Max(0, sun.Looks - 2));
        var (before, after) = (CloseRad(member, sun, look), CloseRad(member, sun, Math.Min(look + 1, sun.Looks - 1)));
        return before + ((at - look) * (after - before)) > 0;
    }

    private double CloseRad(int member, SeasonSun sun, int look)
    {
        var (patch, offset) = (members[member].Patch, members[member].Offset);
        var heightM = patch.Ground.Height.Metres;
        return Refraction.ToApparentRad(sun.AirlessRad(look, offset), heightM)
            - Refraction.ToApparentRad(HorizonRad(member, sun, look), heightM) - (level * sun.SemidiameterRad);
    }

    // Airless, of a sun whose centre stands on it.
    private double HorizonRad(int member, SeasonSun sun, int look) =>
        table.AirlessRadAt(members[member].Index, sun.AzimuthRad(look, members[member].Offset));

    private static IEnumerable<(int Index, GroundPatch Patch)> Chosen(Scene scene)
    {
        var byRole = scene.Patches.Index().ToLookup(entry => entry.Item.Role);
        // The lower row of each pair, with the weight of both: of a band lit from above, so and so many rows are then lit in both or in neither.
        var crest = byRole[PatchRole.Crest].GroupBy(entry => entry.Item.Column).SelectMany(column => column.Chunk(CrestRowsKept)
            .Select(pair => (pair[^1].Index, pair[^1].Item with { Weight = pair.Sum(entry => entry.Item.Weight) })));
        return [.. crest, .. Thinned([.. byRole[PatchRole.Ridge]], RidgePatchesKept), .. Thinned([.. byRole[PatchRole.Valley]], ValleyPatchesKept)];
    }

    /// <summary>So many patches of equal weight, evenly through the weight of all.</summary>
    private static List<(int Index, GroundPatch Patch)> Thinned(List<(int Index, GroundPatch Patch)> patches, int kept)
    {
        if (patches.Count <= kept) return patches;
        var each = patches.Sum(entry => entry.Patch.Weight) / kept;
        var (chosen, reached) = (new List<(int Index, GroundPatch Patch)>(), 0.0);
        foreach (var (index, patch) in patches)
        {
            reached += patch.Weight;
            while (chosen.Count < kept && reached > (chosen.Count + 0.5) * each) chosen.Add((index, patch with { Weight = each }));
        }
        return chosen;
    }
}
