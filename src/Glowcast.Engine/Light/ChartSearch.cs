using System.Runtime.InteropServices;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>Direct light over a day on the patches of one block of ground: looks at their kept horizons, and finds crossings by exact rays, those of all
/// patches together.</summary>
/// <remarks>Mutable, for one thread; ask it about one block after another.</remarks>
/// <param name="table">Of the ground's places.</param>
/// <param name="level">In semidiameters: the centre's height above the horizon from which a patch counts as in the sun.</param>
/// <param name="facing">How the ground's places lie.</param>
internal sealed class ChartSearch(
    SunTrack track, SunLooks looks, HorizonTable table, RayGround ground, double level, LitSearch brightness, IReadOnlyList<PatchGround> facing)
{
    public const double MinuteS = 60;

    // An exact clearance is worked out within ±this: where the sun is farther off, the disc is whole or hidden.
    private const double InterestRad = 0.3 * Math.PI / 180;

    private const double ToleranceS = 0.25;

    // The disc takes no longer than an hour over the horizon, and no less than a second.
    private const double SlowestPerS = 2.0 / 3600;
    private const double FastestPerS = 2;

    private const int FineShares = 512;

    // By the height of the disc's centre, from −1 to 1 semidiameter.
    private static readonly byte[] ShareOf =
        [.. Enumerable.Range(0, (2 * FineShares) + 1).Select(i => (byte)Math.Round(byte.MaxValue * Disc.ShareOfArea((i + 0.5) / FineShares - 1)))];

    private readonly HorizonAround horizon = new();
    private readonly List<Moment> asked = [];
    private readonly Dictionary<Moment, SunSighting> exactLooks = [];
    private readonly List<Crossing> crossings = [];
    private readonly List<int> open = [];

    private ObserverFrame[] frames = [];
    private double[] likelyM = [];
    private float[] clearanceRad = [];
    private sbyte[] sides = [];
    private sbyte[] discs = [];
    private RayAsked[] rays = [];
    private RayFound[] found = [];
    private SunSighting[] seen = [];

    /// <param name="lights">Filled for the block's patches.</param>
    /// <param name="shares">Filled for them as well: the share of the disc that each patch sees at each minute, 0 to 255; zero before.</param>
    public void Run(FanBlock block, PatchLight[] lights, byte[] shares)
    {
        var count = block.Places.Count;
        MakeRoom(count);
        var eyes = ground.From(block);
        var (middle, reachRad) = ground.AreaOf(block);
        var around = looks.Around(middle, reachRad);
        for (var member = 0; member < count; member++) Look(member, block.Places[member].Place, around);
        LookExactly(eyes);
        FindCrossings(eyes, count);
        var next = 0;
        for (var member = 0; member < count; member++)
        {
            var first = next;
            while (next < crossings.Count && crossings[next].Member == member) next++;
            var (patch, minutes) = (block.Places[member].Place, shares.Length / lights.Length);
            lights[patch] = LightOn(member, patch, first, next);
            FillShares(member, first, next, shares.AsSpan(patch * minutes, minutes));
        }
    }

    private void MakeRoom(int count)
    {
        asked.Clear();
        exactLooks.Clear();
        crossings.Clear();
        open.Clear();
        if (frames.Length < count)
        {
            (frames, likelyM) = (new ObserverFrame[count], new double[count]);
            (clearanceRad, sides, discs) = (new float[count * looks.Padded], new sbyte[count * looks.Padded], new sbyte[count * looks.Padded]);
        }
        Array.Fill(likelyM, double.NaN);
    }

    private Span<float> ClearanceRad(int member) => clearanceRad.AsSpan(member * looks.Padded, looks.Padded);

    private Span<sbyte> Sides(int member) => sides.AsSpan(member * looks.Padded, looks.Padded);

    private Span<sbyte> Discs(int member) => discs.AsSpan(member * looks.Padded, looks.Padded);

    /// <summary>At the kept horizon; notes the looks that it leaves open.</summary>
    private void Look(int member, int patch, SunAround around)
    {
        frames[member] = new ObserverFrame(ground.Places[patch]);
        table.AllAround(patch, horizon);
        looks.From(frames[member], horizon, around, ClearanceRad(member), Sides(member), Discs(member));
        var side = Sides(member)[..looks.Count];
        for (var i = 0; ; i++)
        {
            var next = side[i..].IndexOf((sbyte)0);
            if (next < 0) return;
            i += next;
            // One alone between light and shade is in any case passed by a crossing.
            if (i > 0 && i < side.Length - 1 && side[i - 1] * side[i + 1] < 0) continue;
            asked.Add(new Moment(member, i));
        }
    }

    private void LookExactly(HorizonRays eyes)
    {
        Ask(eyes, asked.Count, i => (asked[i].Member, asked[i].Look * looks.StepS));
        for (var i = 0; i < asked.Count; i++)
        {
            exactLooks[asked[i]] = seen[i];
            var (member, look) = asked[i];
            ClearanceRad(member)[look] = (float)seen[i].ClearanceRad;
            Sides(member)[look] = seen[i].InSemidiameters > level ? (sbyte)1 : (sbyte)-1;
            Discs(member)[look] = (sbyte)Math.Clamp(seen[i].InSemidiameters, -1, 1);
        }
    }

    private void FindCrossings(HorizonRays eyes, int count)
    {
        for (var member = 0; member < count; member++) AddCrossings(member);
        CloseIn(eyes);
        // A kept horizon may be wrong where the real one jumps: then the search ends at a look that it had on the wrong side.
        for (NoteDoubtful(); asked.Count > 0; NoteDoubtful())
        {
            LookExactly(eyes);
            var again = asked.Select(look => look.Member).ToHashSet();
            crossings.RemoveAll(crossing => again.Contains(crossing.Member));
            foreach (var member in again) AddCrossings(member);
            CloseIn(eyes);
            crossings.Sort((a, b) => (a.Member, a.Before).CompareTo((b.Member, b.Before)));
        }
    }

    private void AddCrossings(int member)
    {
        var side = Sides(member)[..looks.Count];
        for (var last = 0; ;)
        {
            // The next look on the other side; what is open still lies between.
            var next = side[last..].IndexOf((sbyte)-side[last]);
            if (next < 0) break;
            next += last;
            var before = next - 1;
            while (side[before] == 0) before--;
            open.Add(crossings.Count);
            var search = new CrossingSearch(
                before * looks.StepS, InSemidiameters(member, before), next * looks.StepS, InSemidiameters(member, next), level, looks.SemidiameterRad, ToleranceS);
            crossings.Add(new Crossing { Member = member, Before = before, After = next, Search = search, Sun = LookAt(member, before) ?? LookAt(member, next) });
            last = next;
        }
    }

    private void CloseIn(HorizonRays eyes)
    {
        var all = CollectionsMarshal.AsSpan(crossings);
        while (open.Count > 0)
        {
            Ask(eyes, open.Count, i => (crossings[open[i]].Member, crossings[open[i]].Search.AtS));
            var still = 0;
            for (var i = 0; i < open.Count; i++)
            {
                ref var crossing = ref all[open[i]];
                // Where the horizon jumps, what stands there is seen from one side only.
                if (crossing.Sun is null || !double.IsNaN(seen[i].HorizonM)) crossing.Sun = seen[i];
                if (!crossing.Search.Take(seen[i])) open[still++] = open[i];
            }
            open.RemoveRange(still, open.Count - still);
        }
    }

    /// <summary>Notes the looks, taken at the kept horizon alone, at which a search ended.</summary>
    private void NoteDoubtful()
    {
        asked.Clear();
        foreach (var crossing in crossings)
        {
            var atS = crossing.Search.AtS;
            if (atS - (crossing.Before * looks.StepS) <= ToleranceS) Note(new Moment(crossing.Member, crossing.Before));
            if ((crossing.After * looks.StepS) - atS <= ToleranceS) Note(new Moment(crossing.Member, crossing.After));
        }

        void Note(Moment look)
        {
            if (!exactLooks.ContainsKey(look) && !asked.Contains(look)) asked.Add(look);
        }
    }

    /// <summary>What was seen at a look; null where it was not looked at exactly, or nothing stood near.</summary>
    private SunSighting? LookAt(int member, int look) =>
        exactLooks.TryGetValue(new Moment(member, look), out var sun) && !double.IsNaN(sun.HorizonM) ? sun : null;

    private double InSemidiameters(int member, int look) => ClearanceRad(member)[look] / looks.SemidiameterRad;

    /// <summary>Sees the sun from members of the block at moments each, by exact rays.</summary>
    private void Ask(HorizonRays eyes, int count, Func<int, (int Member, double Seconds)> moment)
    {
        if (rays.Length < count) (rays, found, seen) = (new RayAsked[2 * count], new RayFound[2 * count], new SunSighting[2 * count]);
        var lastM = double.NaN;
        for (var i = 0; i < count; i++)
        {
            var (member, seconds) = moment(i);
            var sun = AirlessSun.Seen(frames[member], track.EarthFixedAu(seconds));
            var apparentRad = Refraction.ToApparentRad(sun.AltitudeRad, ground.HeightM(eyes.PlaceOf(member)));
            seen[i] = new SunSighting(sun.AzimuthRad, apparentRad, sun.SemidiameterRad, InterestRad, double.NaN);
            // Where the neighbour has its horizon, until this one has its own.
            lastM = double.IsNaN(likelyM[member]) ? lastM : likelyM[member];
            rays[i] = new RayAsked(member, sun.AzimuthRad, apparentRad - InterestRad, apparentRad + InterestRad, lastM);
        }
        eyes.Find(rays.AsSpan(0, count), found);
        for (var i = 0; i < count; i++)
        {
            if (!found[i].Found) continue;
            if (!found[i].IsBeyondGrid) likelyM[rays[i].Member] = found[i].DistanceM;
            seen[i] = seen[i] with { ClearanceRad = seen[i].ApparentRad - found[i].AngleRad, HorizonM = found[i].DistanceM, IsBeyondGrid = found[i].IsBeyondGrid };
        }
    }

    private PatchLight LightOn(int member, int patch, int first, int end)
    {
        var isInSun = Sides(member)[0] > 0;
        var inSun = new SunStretch[(end - first + (isInSun ? 2 : 1)) / 2];
        var ends = new (HorizonCrossing Crossing, double RatePerS)[2 * inSun.Length];
        var at = 0;
        if (isInSun) ends[at++] = (new HorizonCrossing(0, null), double.PositiveInfinity);
        for (var i = first; i < end; i++) ends[at++] = (new HorizonCrossing(crossings[i].Search.AtS, crossings[i].Sun), RatePerS(member, crossings[i]));
        if (at < ends.Length) ends[at] = (new HorizonCrossing(track.LengthS, null), double.PositiveInfinity);
        var (lit, litEnds) = (new List<Stretch>(), new List<HorizonCrossing>());
        var place = LitGround.Of(ground.Places[patch], facing[patch].Normal, facing[patch].SkyView);
        for (var i = 0; i < inSun.Length; i++)
        {
            var (rises, sinks) = (ends[2 * i], ends[(2 * i) + 1]);
            var time = new Stretch(rises.Crossing.Seconds, sinks.Crossing.Seconds);
            inSun[i] = new SunStretch(time, level, rises.RatePerS, sinks.RatePerS);
            foreach (var stretch in brightness.Lit(inSun[i], place))
            {
                lit.Add(stretch);
                litEnds.Add(stretch.StartS == time.StartS ? rises.Crossing : HorizonCrossing.OfBrightness(stretch.StartS));
                litEnds.Add(stretch.EndS == time.EndS ? sinks.Crossing : HorizonCrossing.OfBrightness(stretch.EndS));
            }
        }
        return new PatchLight(inSun, lit, litEnds);
    }

    /// <summary>How fast the disc comes over the horizon, or goes behind it, at a crossing [semidiameters/s].</summary>
    private double RatePerS(int member, in Crossing crossing)
    {
        var (beforeS, afterS) = (crossing.Before * looks.StepS, crossing.After * looks.StepS);
        var change = Math.Abs(InSemidiameters(member, crossing.After) - InSemidiameters(member, crossing.Before));
        return Math.Clamp(change / (afterS - beforeS), SlowestPerS, FastestPerS);
    }

    private void FillShares(int member, int first, int end, Span<byte> shares)
    {
        var disc = Discs(member)[..looks.Count];
        for (var look = 0; look < disc.Length;)
        {
            var here = disc[look];
            var same = disc[look..].IndexOfAnyExcept(here);
            var last = same < 0 ? disc.Length - 1 : look + same - 1;
            if (here > 0) shares[FirstMinute(look * looks.StepS)..(LastMinute(last * looks.StepS) + 1)].Fill(byte.MaxValue);
            for (var before = here == 0 ? look : last; before <= last && before < disc.Length - 1; before++)
                FillBetween(before * looks.StepS, InSemidiameters(member, before), (before + 1) * looks.StepS, InSemidiameters(member, before + 1), shares);
            look = last + 1;
        }
        // About a crossing by that itself.
        for (var i = first; i < end; i++)
        {
            var (crossing, atS) = (crossings[i], crossings[i].Search.AtS);
            FillBetween(crossing.Before * looks.StepS, InSemidiameters(member, crossing.Before), atS, level, shares);
            FillBetween(atS, level, crossing.After * looks.StepS, InSemidiameters(member, crossing.After), shares);
        }

        static int FirstMinute(double seconds) => (int)Math.Ceiling(seconds / MinuteS);
        static int LastMinute(double seconds) => (int)(seconds / MinuteS);

        static void FillBetween(double fromS, double from, double toS, double to, Span<byte> shares)
        {
            for (var minute = FirstMinute(fromS); minute <= LastMinute(toS); minute++)
            {
                var height = toS > fromS ? from + ((to - from) * (((minute * MinuteS) - fromS) / (toS - fromS))) : from;
                shares[minute] = ShareOf[(int)(FineShares * (Math.Clamp(height, -1, 1) + 1))];
            }
        }
    }

    /// <summary>A look of a member.</summary>
    private readonly record struct Moment(int Member, int Look);

    /// <summary>Between two looks of a member.</summary>
    private struct Crossing
    {
        public int Member;
        public int Before;
        public int After;
        public CrossingSearch Search;
        public SunSighting? Sun;
    }
}
