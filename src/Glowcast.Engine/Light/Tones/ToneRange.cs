namespace Glowcast.Engine.Light;

/// <summary>Whether the picture has a black: the darkest tenth of its ground against the brightest tenth. A glossy print holds 6.6 to 7.6 stops, a matte one 5.6, and
/// under glass and room light 4 to 5 are left; where less lies between, the blacks are grey until they are pulled down. Common practice.</summary>
public enum ToneVerdict
{
    /// <summary>Five stops or more.</summary>
    Has,

    /// <summary>Three to five: to be pulled down in processing, at the price of noise.</summary>
    Weak,

    /// <summary>Less: grey on grey.</summary>
    None,
}

/// <summary>The black point of the whole picture at one moment.</summary>
/// <param name="Stops">From the darkest tenth of the ground in it to the brightest, by solid angle, through the air to each one's own distance.</param>
/// <param name="BareStops">The same without any air.</param>
/// <param name="DarkestCd">Mean luminance of that tenth as seen [cd/m²].</param>
/// <param name="BrightestCd">Of that one.</param>
/// <param name="DarkestM">Its mean distance [m].</param>
/// <param name="BrightestM">Of that one.</param>
public sealed record ToneRange(double Stops, double BareStops, double DarkestCd, double BrightestCd, double DarkestM, double BrightestM)
{
    public const double HasFromStops = 5;

    public const double WeakFromStops = 3;

    private const double Part = 0.1;

    public ToneVerdict Verdict => Stops switch
    {
        >= HasFromStops => ToneVerdict.Has,
        >= WeakFromStops => ToneVerdict.Weak,
        _ => ToneVerdict.None,
    };

    /// <returns>Null where the picture shows no ground.</returns>
    public static ToneRange? Of(PictureTones tones)
    {
        ArgumentNullException.ThrowIfNull(tones);
        var seen = tones.Ground.Where(tone => tone.Weight > 0).OrderBy(tone => tone.SeenCd).ToList();
        if (seen.Count == 0) return null;
        var bare = seen.OrderBy(tone => tone.BareCd).ToList();
        var (dark, bright) = (Mean(seen), Mean([.. Enumerable.Reverse(seen)]));
        var (bareDark, bareBright) = (Mean(bare), Mean([.. Enumerable.Reverse(bare)]));
        return new ToneRange(
            Math.Log2(bright.SeenCd / dark.SeenCd), Math.Log2(bareBright.BareCd / bareDark.BareCd), dark.SeenCd, bright.SeenCd, dark.DistanceM, bright.DistanceM);
    }

    // Of the first tenth of the solid angle; a piece across its end counts in part.
    private static (double SeenCd, double BareCd, double DistanceM) Mean(List<Tone> ordered)
    {
        var wanted = Part * ordered.Sum(tone => tone.Weight);
        var (left, seen, bare, distance) = (wanted, 0.0, 0.0, 0.0);
        foreach (var tone in ordered)
        {
            var part = Math.Min(left, tone.Weight);
            (seen, bare, distance) = (seen + (part * tone.SeenCd), bare + (part * tone.BareCd), distance + (part * tone.DistanceM));
            left -= part;
            if (left <= 0) break;
        }
        return (seen / wanted, bare / wanted, distance / wanted);
    }
}
