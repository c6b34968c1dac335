using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How finely the ground of a picture is parted.</summary>
/// <param name="CrestRows">Into so many rows the crest band.</param>
/// <param name="CoarseRow">As high the rows of all other ground.</param>
/// <param name="SweepStepShare">Steps of the sweep, as a share of half a cell.</param>
internal sealed record SceneFineness(int CrestRows, Angle CoarseRow, double SweepStepShare)
{
    public static SceneFineness Usual { get; } = new(10, Angle.FromDegrees(0.4), 1);
}

/// <summary>Parts what is visible on one bearing into patches, by apparent altitude (docs/model.md, L4).</summary>
internal sealed class ColumnParting(LightThresholds thresholds, Length? deckTop, PictureBounds bounds, SceneFineness fineness)
{
    private const int CrestParts = 4;
    private const int ValleyParts = 2;
    private const int MostCoarseRows = 40;
    private const double MostCrestRowDeg = 0.25;

    // A strip lower than this share of a row goes with the one beneath it: of ridge below the crest band, which decides nothing, a higher one.
    private const double LeastOfRow = 0.2;
    private const double LeastOfRidge = 0.6;

    private readonly double ridgeFromM = thresholds.RidgeFrom.Metres;
    private readonly double deckM = deckTop is { } top ? top.Metres + DeckSurface.ToleranceM : double.NegativeInfinity;

    /// <summary>Ground of one role, without a break.</summary>
    private sealed record Strip(PatchRole Role, List<VisibleSample> Places, double BottomRad, double TopRad)
    {
        public double HeightRad => TopRad - BottomRad;
    }

    /// <summary>The apparent altitude of the highest ridge, in the picture or above it; null without any.</summary>
    public double? HighestRidgeRad(IReadOnlyList<VisibleSample[]> pieces) => StripsOf(pieces).FindLast(strip => strip.Role == PatchRole.Ridge)?.TopRad;

    /// <returns>From the top down.</returns>
    public List<GroundPatch> Patches(IReadOnlyList<VisibleSample[]> pieces, int column, Angle width, GroundLine line)
    {
        var (bottomRad, topRad) = (bounds.Bottom.Radians, bounds.Top.Radians);
        var strips = StripsOf(pieces).Select(strip => Cut(strip, bottomRad, topRad)).OfType<Strip>().ToList();
        var patches = new List<GroundPatch>();
        if (strips.Count == 0) return patches;
        var crestRad = strips.FindLast(strip => strip.Role == PatchRole.Ridge)?.TopRad - thresholds.CrestBand.Radians;
        var coarseRad = Math.Max(fineness.CoarseRow.Radians, (strips[^1].TopRad - strips[0].BottomRad) / MostCoarseRows);
        var fineRad = Math.Min(thresholds.CrestBand.Radians / fineness.CrestRows, double.DegreesToRadians(MostCrestRowDeg) * 10 / fineness.CrestRows);
        foreach (var strip in Enumerable.Reverse(Joined(strips.SelectMany(strip => PartedAt(strip, crestRad)), fineRad, coarseRad)))
        {
            var rows = Math.Max(1, (int)Math.Ceiling((strip.HeightRad / (strip.Role == PatchRole.Crest ? fineRad : coarseRad)) - 1e-9));
            for (var row = rows - 1; row >= 0; row--)
            {
                var (lowRad, highRad) = (strip.BottomRad + (strip.HeightRad * row / rows), strip.BottomRad + (strip.HeightRad * (row + 1) / rows));
                var distance = Length.FromMetres(At(strip.Places, (lowRad + highRad) / 2).DistanceM);
                var parts = strip.Role switch { PatchRole.Crest => CrestParts, PatchRole.Valley => ValleyParts, _ => 1 };
                patches.Add(new GroundPatch(
                    column, strip.Role, PlaceAt(strip, (lowRad + highRad) / 2), distance,
                    Angle.FromRadians(lowRad), Angle.FromRadians(highRad), width.Radians * (Math.Sin(highRad) - Math.Sin(lowRad)), JoinsNext: row > 0)
                {
                    Parts = [.. Enumerable.Range(0, parts).Select(part => PlaceAt(strip, highRad - ((part + 0.5) / parts * (highRad - lowRad))))],
                });
            }
        }
        return patches;

        Place PlaceAt(Strip strip, double altitudeRad)
        {
            var place = At(strip.Places, altitudeRad);
            return new Place(line.At(place.DistanceM), Length.FromMetres(place.HeightM));
        }
    }

    /// <summary>Pieces parted where the ridge begins and where the deck's top ends: valley, or ridge of either kind.</summary>
    private List<Strip> StripsOf(IReadOnlyList<VisibleSample[]> pieces)
    {
        var strips = new List<Strip>();
        foreach (var piece in pieces)
        {
            List<VisibleSample> places = [piece[0]];
            PatchRole? role = null;
            for (var i = 1; i < piece.Length; i++)
            {
                foreach (var place in Borders(piece[i - 1], piece[i]).Append(piece[i]))
                {
                    var here = RoleBetween(places[^1], place);
                    if (role is { } last && last != here)
                    {
                        strips.Add(new Strip(last, places, places[0].AltitudeRad, places[^1].AltitudeRad));
                        places = [places[^1]];
                    }
                    role = here;
                    places.Add(place);
                }
            }
            strips.Add(new Strip(role!.Value, places, places[0].AltitudeRad, places[^1].AltitudeRad));
        }
        return strips;
    }

    private IEnumerable<VisibleSample> Borders(VisibleSample near, VisibleSample far)
    {
        var (atRidge, atDeck) = ((ridgeFromM - near.DistanceM) / (far.DistanceM - near.DistanceM), (deckM - near.HeightM) / (far.HeightM - near.HeightM));
        return new[] { atRidge, atDeck }.Where(share => share is > 0 and < 1).Order().Select(share => Between(near, far, share));
    }

    private PatchRole RoleBetween(VisibleSample near, VisibleSample far) =>
        (near.DistanceM + far.DistanceM) / 2 >= ridgeFromM && (near.HeightM + far.HeightM) / 2 > deckM ? PatchRole.Ridge : PatchRole.Valley;

    private static VisibleSample Between(VisibleSample near, VisibleSample far, double share) => new(
        near.DistanceM + (share * (far.DistanceM - near.DistanceM)), near.HeightM + (share * (far.HeightM - near.HeightM)),
        near.AltitudeRad + (share * (far.AltitudeRad - near.AltitudeRad)));

    private static Strip? Cut(Strip strip, double bottomRad, double topRad)
    {
        var (low, high) = (Math.Max(strip.BottomRad, bottomRad), Math.Min(strip.TopRad, topRad));
        return high > low ? strip with { BottomRad = low, TopRad = high } : null;
    }

    /// <summary>What of a strip lies in the crest band, and what below it.</summary>
    private static IEnumerable<Strip> PartedAt(Strip strip, double? crestRad)
    {
        if (strip.Role == PatchRole.Valley || crestRad is not { } band) return [strip];
        var crest = Cut(strip, band, double.PositiveInfinity) is { } upper ? upper with { Role = PatchRole.Crest } : null;
        return new[] { Cut(strip, double.NegativeInfinity, band), crest }.OfType<Strip>();
    }

    private static List<Strip> Joined(IEnumerable<Strip> strips, double fineRad, double coarseRad)
    {
        var joined = new List<Strip>();
        foreach (var strip in strips)
        {
            var leastRad = strip.Role switch
            {
                PatchRole.Crest => LeastOfRow * fineRad,
                PatchRole.Ridge => LeastOfRidge * coarseRad,
                _ => LeastOfRow * coarseRad,
            };
            var isSmall = strip.HeightRad < leastRad;
            if (isSmall && joined.Count > 0 && joined[^1].Role == strip.Role) joined[^1] = joined[^1] with { TopRad = strip.TopRad };
            else joined.Add(strip);
        }
        return joined;
    }

    private static VisibleSample At(List<VisibleSample> places, double altitudeRad)
    {
        if (altitudeRad >= places[^1].AltitudeRad) return places[^1];
        var (below, above) = (0, places.Count - 1);
        while (above - below > 1)
        {
            var middle = (below + above) / 2;
            if (places[middle].AltitudeRad <= altitudeRad) below = middle;
            else above = middle;
        }
        var (near, far) = (places[below], places[above]);
        return Between(near, far, far.AltitudeRad > near.AltitudeRad ? Math.Clamp((altitudeRad - near.AltitudeRad) / (far.AltitudeRad - near.AltitudeRad), 0, 1) : 1);
    }
}
