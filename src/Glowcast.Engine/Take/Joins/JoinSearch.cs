using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace Glowcast.Engine.Take;

/// <summary>Where one picture lies on another, as their textures say.</summary>
/// <param name="Across">How far to the right of the first the second looks, in widths of a frame.</param>
/// <param name="Down">How far below it, in heights of a frame.</param>
/// <param name="Likeness">Of the part both show: the correlation of their textures, at most 1.</param>
/// <param name="Surety">How far it stands out from all other places the second might lie, in their usual deviations.</param>
/// <param name="Lead">By how much it stands out more than the best other place.</param>
/// <param name="OtherLikeness">How alike they are at the other places that stand out, at most.</param>
internal sealed record JoinPlace(double Across, double Down, double Likeness, double Surety, double Lead, double OtherLikeness);

/// <summary>Lays one picture over another at every place, and finds where the two are most alike.</summary>
/// <remarks>docs/model.md, Take eq. 20: normalised cross-correlation by the Fourier transform, on half the pixels; the best few places
/// anew on all. The transform is that of MathNet.Numerics.</remarks>
internal sealed class JoinSearch
{
    private const double LeastShare = 0.1;
    private const double MostAside = 0.35;
    private const double FaintVariance = 0.002;
    private const double FaintestVariance = 0.012;
    private const int Candidates = 4;
    private const int Apart = 3;
    private const double MedianPerSigma = 0.6745;
    private const double AlikeAtMost = 0.995;

    private readonly JoinTexture a;
    private readonly JoinTexture b;
    private readonly Picture first;
    private readonly Picture second;

    /// <summary>A picture made ready to be laid over others.</summary>
    public sealed class Picture
    {
        public Picture(View view)
        {
            Full = JoinTexture.Of(view);
            Half = Full.Halved();
            Spectrum = Half.Spectrum();
            var (sum, squares) = Full.Over(0, 0, Full.Wide, Full.High);
            double pixels = Full.Wide * Full.High;
            IsFaint = (squares / pixels) - (sum * sum / (pixels * pixels)) < FaintestVariance;
        }

        /// <summary>There is little to be seen in it.</summary>
        public bool IsFaint { get; }

        public JoinTexture Full { get; }

        public JoinTexture Half { get; }

        public Complex32[] Spectrum { get; }
    }

    private JoinSearch(Picture first, Picture second) => (this.first, this.second, a, b) = (first, second, first.Half, second.Half);

    /// <returns>The best place; null where the pictures are of different shapes.</returns>
    public static JoinPlace? Of(Picture first, Picture second) =>
        (first.Full.Wide, first.Full.High) == (second.Full.Wide, second.Full.High) ? new JoinSearch(first, second).Best() : null;

    /// <summary>The best place near one where it should be.</summary>
    /// <param name="across">In widths of a frame.</param>
    /// <param name="down">In heights.</param>
    /// <param name="reach">How far off it may be, in both.</param>
    /// <returns>Null where the pictures are of different shapes, or there is none; its lead is not known.</returns>
    public static JoinPlace? Near(Picture first, Picture second, double across, double down, double reach) =>
        (first.Full.Wide, first.Full.High) == (second.Full.Wide, second.Full.High) ? new JoinSearch(first, second).Near(across, down, reach) : null;

    private JoinPlace? Near(double across, double down, double reach)
    {
        var (places, usual) = Everywhere();
        var near = places.FindAll(place => Math.Abs(((double)place.Across / a.Wide) - across) <= reach && Math.Abs(((double)place.Down / a.High) - down) <= reach);
        if (!(usual > 0) || near.Count == 0) return null;
        var top = near.MaxBy(place => place.Score);
        var best = Refined(2 * top.Across, 2 * top.Down);
        return new JoinPlace((double)best.Across / first.Full.Wide, (double)best.Down / first.Full.High, best.Alike, best.Score / (2 * usual), 0, 1);
    }

    private (List<(int Across, int Down, double Score)> Places, double Usual) Everywhere()
    {
        var products = Products();
        var places = new List<(int Across, int Down, double Score)>();
        for (var down = -a.High + 1; down < a.High; down++)
            for (var across = -a.Wide + 1; across < a.Wide; across++)
                if (MayLie(across, down)) places.Add((across, down, Score(Alike(a, b, across, down, products[Lag(across, down, products.Length)]), across, down, a)));
        return (places, SessionFacts.Median(places.Select(place => Math.Abs(place.Score)))!.Value / MedianPerSigma);
    }

    private JoinPlace? Best()
    {
        var (places, usual) = Everywhere();
        if (!(usual > 0)) return null;
        var peaks = Peaks(places).ConvertAll(peak => Refined(2 * peak.Across, 2 * peak.Down));
        peaks.Sort((x, y) => y.Score.CompareTo(x.Score));
        var best = peaks[0];
        var others = peaks.Skip(1).Where(peak => Math.Max(Math.Abs(peak.Across - best.Across), Math.Abs(peak.Down - best.Down)) > 2 * Apart).ToList();
        var other = others.Select(peak => peak.Score).DefaultIfEmpty(0).Max();
        // The deviation grows with the pixels: four times as many.
        return new JoinPlace(
            (double)best.Across / first.Full.Wide, (double)best.Down / first.Full.High, best.Alike, best.Score / (2 * usual), (best.Score - Math.Max(0, other)) / (2 * usual),
            others.Select(peak => peak.Alike).DefaultIfEmpty(0).Max());
    }

    private float[] Products()
    {
        var product = new Complex32[first.Spectrum.Length];
        for (var i = 0; i < product.Length; i++) product[i] = first.Spectrum[i] * second.Spectrum[i].Conjugate();
        Fourier.Inverse(product, FourierOptions.NoScaling);
        return Array.ConvertAll(product, value => value.Real / product.Length);
    }

    private int Lag(int across, int down, int length) => ((down * 2 * a.Wide) + across + length) % length;

    // Beside, above or below: not across a corner, and not by a sliver.
    private bool MayLie(int across, int down)
    {
        var (beside, below) = ((double)Math.Abs(across) / a.Wide, (double)Math.Abs(down) / a.High);
        return Math.Max(beside, below) <= 1 - LeastShare && Math.Min(beside, below) <= MostAside;
    }

    private static List<(int Across, int Down, double Score)> Peaks(List<(int Across, int Down, double Score)> places)
    {
        var peaks = new List<(int Across, int Down, double Score)>();
        foreach (var place in places.OrderByDescending(place => place.Score))
        {
            if (peaks.Count == Candidates) break;
            if (peaks.TrueForAll(peak => Math.Max(Math.Abs(peak.Across - place.Across), Math.Abs(peak.Down - place.Down)) > Apart)) peaks.Add(place);
        }
        return peaks;
    }

    private (int Across, int Down, double Alike, double Score) Refined(int nearAcross, int nearDown)
    {
        var best = (Across: nearAcross, Down: nearDown, Alike: -1.0, Score: double.NegativeInfinity);
        for (var down = nearDown - 2; down <= nearDown + 2; down++)
            for (var across = nearAcross - 2; across <= nearAcross + 2; across++)
            {
                if (Math.Abs(across) >= first.Full.Wide - 3 || Math.Abs(down) >= first.Full.High - 3) continue;
                var alike = Alike(first.Full, second.Full, across, down, Product(first.Full, second.Full, across, down));
                var score = Score(alike, across, down, first.Full);
                if (score > best.Score) best = (across, down, alike, score);
            }
        return best;
    }

    private static double Product(JoinTexture a, JoinTexture b, int across, int down)
    {
        var (left, top, wide, high) = Shared(a, across, down);
        var sum = 0f;
        for (var y = top; y < top + high; y++)
        {
            sum += Dot(a.Values.AsSpan((y * a.Wide) + left, wide), b.Values.AsSpan(((y - down) * a.Wide) + left - across, wide));
        }
        return sum;
    }

    private static float Dot(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        var (many, i) = (Vector<float>.Zero, 0);
        for (; i <= a.Length - Vector<float>.Count; i += Vector<float>.Count) many += new Vector<float>(a[i..]) * new Vector<float>(b[i..]);
        var sum = Vector.Sum(many);
        for (; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }

    private static (int Left, int Top, int Wide, int High) Shared(JoinTexture a, int across, int down) =>
        (Math.Max(0, across), Math.Max(0, down), a.Wide - Math.Abs(across), a.High - Math.Abs(down));

    private static double Alike(JoinTexture a, JoinTexture b, int across, int down, double product)
    {
        var (left, top, wide, high) = Shared(a, across, down);
        double pixels = wide * high;
        var (ofA, ofB) = (a.Over(left, top, wide, high), b.Over(left - across, top - down, wide, high));
        var (spreadA, spreadB) = (ofA.Squares - (ofA.Sum * ofA.Sum / pixels), ofB.Squares - (ofB.Sum * ofB.Sum / pixels));
        return (product - (ofA.Sum * ofB.Sum / pixels)) / Math.Sqrt((Math.Max(0, spreadA) + (FaintVariance * pixels)) * (Math.Max(0, spreadB) + (FaintVariance * pixels)));
    }

    // Fisher's: about equally spread at every place where there is nothing to find, whatever the number of pixels.
    private static double Score(double alike, int across, int down, JoinTexture a) =>
        Math.Atanh(Math.Clamp(alike, -AlikeAtMost, AlikeAtMost)) * Math.Sqrt((a.Wide - Math.Abs(across)) * (a.High - Math.Abs(down)));
}
