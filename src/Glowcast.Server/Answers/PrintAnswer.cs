using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Field.Words;

namespace Glowcast.Server.Answers;

/// <summary>The picture that the set makes.</summary>
/// <param name="WidthPx">On a cylinder, at the scale of a frame's centre.</param>
/// <param name="HeightPx">Of the clean rectangle.</param>
/// <param name="Aspect">Width over height.</param>
/// <param name="Sizes">At 300, 240 and 180 pixels per inch.</param>
/// <param name="Projections">Those that the span allows.</param>
/// <param name="Ridge">What it shows of the ridge; null where no grid has been looked at.</param>
/// <param name="RawFiles">Of all sets, marker frames included.</param>
/// <param name="RawBytes">Uncompressed, at 14 bits a pixel.</param>
public sealed record PrintAnswer(
    double WidthPx, double HeightPx, double Megapixels, double Aspect, IReadOnlyList<PrintSizeAnswer> Sizes, IReadOnlyList<ProjectionAnswer> Projections,
    RidgeDetailAnswer? Ridge, int RawFiles, long RawBytes)
{
    public static PrintAnswer Of(PlannedSet set, RidgeInView? view)
    {
        ArgumentNullException.ThrowIfNull(set);
        var layout = set.Layout;
        var (cylinder, storage) = (StitchedSize.Of(Projection.Cylinder, layout)!, RawStorage.Of(layout));
        return new PrintAnswer(
            cylinder.WidthPx, cylinder.HeightPx, cylinder.Megapixels, cylinder.Aspect,
            [.. PrintSize.UsualPpi.Select(ppi => PrintSizeAnswer.Of(layout.PrintAt(ppi)))],
            [.. Enum.GetValues<Projection>().Select(projection => StitchedSize.Of(projection, layout)).OfType<StitchedSize>().Select(ProjectionAnswer.Of)],
            RidgeDetailAnswer.Of(set, view), storage.Exposures, storage.Bytes);
    }
}

/// <param name="ViewingDistanceMm">From here on the eye no longer tells the pixels apart.</param>
public sealed record PrintSizeAnswer(double Ppi, double WidthMm, double HeightMm, double ViewingDistanceMm)
{
    public static PrintSizeAnswer Of(PrintSize print)
    {
        ArgumentNullException.ThrowIfNull(print);
        return new PrintSizeAnswer(print.Ppi, print.Width.Millimetres, print.Height.Millimetres, print.ViewingDistance.Millimetres);
    }
}

public sealed record ProjectionAnswer(Projection Projection, double WidthPx, double HeightPx)
{
    /// <summary>How much larger the picture is drawn where it is stretched most than in its middle.</summary>
    public double Stretch { get; init; }

    /// <summary>Why it is not what a print wants; null where it may be.</summary>
    public string? NotForPrint { get; init; }

    public static ProjectionAnswer Of(StitchedSize size)
    {
        ArgumentNullException.ThrowIfNull(size);
        return new ProjectionAnswer(size.Projection, size.WidthPx, size.HeightPx)
        {
            Stretch = Math.Round(size.Stretch, 3),
            NotForPrint = SetWords.NotForPrint(size),
        };
    }
}

/// <summary>What the picture shows of the ridge.</summary>
/// <param name="DistanceM">Median distance of the ridge along the skyline.</param>
/// <param name="PixelM">What a pixel spans there.</param>
/// <param name="SmallestM">Two pixels, widened by diffraction; unsteady air is left out.</param>
/// <param name="ContrastLeft">The share of its contrast that a dark thing keeps through the visibility given.</param>
public sealed record RidgeDetailAnswer(double DistanceM, double PixelM, double SmallestM, double ContrastLeft)
{
    public static RidgeDetailAnswer? Of(PlannedSet set, RidgeInView? view)
    {
        ArgumentNullException.ThrowIfNull(set);
        if (view?.Ridge is not { } distance) return null;
        var detail = RidgeDetail.At(distance, set.Layout.Field, set.Layout.Lens, set.Plan.Conditions.Visibility);
        return new RidgeDetailAnswer(distance.Metres, detail.Pixel.Metres, detail.Smallest.Metres, detail.ContrastLeft);
    }
}
