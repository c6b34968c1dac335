using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>The ridge picture at a moment, with the frames of a set over it, numbered in the order they are shot.</summary>
internal sealed class RidgePanel
{
    private const double SkyAboveDeg = 1.5;
    private const double DeepestDeg = 12;
    private const double ShallowestDeg = 2;
    private const double LeastPx = 170;
    private const double NumberPx = 11;
    private const int PointsPerSide = 8;

    private readonly LightForecast forecast;
    private readonly Scene scene;
    private readonly PlateScale scale;
    private readonly RidgeRaster raster;
    private readonly double perDegree;
    private readonly double top;
    private readonly double height;

    /// <param name="top">Of the picture.</param>
    /// <param name="mostPx">Its greatest height.</param>
    public RidgePanel(LightForecast forecast, Scene scene, PlateScale scale, double top, double mostPx)
    {
        (this.forecast, this.scene, this.scale, this.top) = (forecast, scene, scale, top);
        var depthDeg = Math.Clamp((mostPx / scale.PerDegree) - SkyAboveDeg, ShallowestDeg, DeepestDeg);
        raster = RidgeRaster.Of(scene, (int)scale.Width, SkyAboveDeg, depthDeg);
        // True to the bearings where that is tall enough to be read and finds room, else stretched by a round factor or pressed.
        var plainPx = raster.Rows * raster.PixelDeg * scale.PerDegree;
        perDegree = scale.PerDegree * (plainPx > mostPx ? mostPx / plainPx : Math.Max(1, Math.Ceiling(2 * LeastPx / plainPx) / 2));
        height = Math.Round(raster.Rows * raster.PixelDeg * perDegree);
    }

    public double Bottom => top + height;

    private Box Plot => new(scale.Left, top, scale.Width, height);

    public IEnumerable<Mark> Marks(Instant at)
    {
        yield return new Photograph(new RidgePainter(raster, scene, forecast.Plan.Conditions.Visibility).At(forecast.Chart, at, forecast.Brightness?.At(at).DirectColour), Plot);
        foreach (var mark in Altitudes()) yield return mark;
        if (forecast.Set is { } set) yield return new Clip(Plot, [.. set.Layout.Frames.Select(FrameOutline), .. Numbers(set)]);
    }

    private double Y(Angle altitude) => top + ((raster.TopDeg - altitude.Degrees) * perDegree);

    private IEnumerable<Mark> Altitudes()
    {
        var stepDeg = new double[] { 1, 2, 5, 10 }.FirstOrDefault(step => step * perDegree >= 34, 10);
        for (var n = Math.Ceiling((raster.TopDeg - (height / perDegree)) / stepDeg); n * stepDeg <= raster.TopDeg; n++)
        {
            var y = Y(Angle.FromDegrees(n * stepDeg));
            yield return new Line(new Spot(scale.Left - 5, y), new Spot(scale.Left, y), new Pen(Inks.Quiet));
            if (y > top + 9 && y < Bottom - 4) yield return new Label($"{(n < 0 ? "−" : "")}{Math.Abs(n * stepDeg):0}°", new Spot(scale.Left - 8, y + 4), 11.5, Anchor.End, Inks.Quiet);
        }
        yield return new Line(new Spot(scale.Left, Y(Angle.Zero)), new Spot(scale.Right, Y(Angle.Zero)), new Pen(Inks.Paper, 1, 0.35, 2, 5));
    }

    private Outline FrameOutline(Frame frame)
    {
        (double Across, double Up)[] corners = [(-1, 1), (1, 1), (1, -1), (-1, -1)];
        var edge =
            from side in corners.Zip([.. corners.Skip(1), corners[0]])
            from step in Enumerable.Range(0, PointsPerSide)
            let t = (double)step / PointsPerSide
            let point = frame.PointAt(side.First.Across + ((side.Second.Across - side.First.Across) * t), side.First.Up + ((side.Second.Up - side.First.Up) * t))
            select new Spot(scale.X(frame.Bearing) + (point.Turn.Degrees * scale.PerDegree), Y(point.Altitude));
        return new Outline([.. edge], null, frame.Spare ? new Pen(Inks.White, 1, 0.8, 3, 4) : new Pen(Inks.White, 1, 0.8));
    }

    private IEnumerable<Label> Numbers(PlannedSet set)
    {
        var layout = set.Layout;
        var every = Math.Max(1, (int)Math.Ceiling(2 * NumberPx / (layout.Across.Step.Degrees * scale.PerDegree)));
        return
            from exposure in set.Clock.Exposures
            where exposure is { Set: 0, Shot: 0 } && (exposure.Column % every == 0 || exposure.Column == layout.ColumnsWithSpares - 1)
            let frame = layout.FrameAt(exposure.Row, exposure.Column)
            select new Label($"{exposure.Frame + 1}", new Spot(NumberX(frame), NumberY(frame, layout)), NumberPx, Anchor.Middle, Inks.White, Inks.Bar);
    }

    // Spare frames reach beyond the picture; their numbers stay within it.
    private double NumberX(Frame frame) => Math.Clamp(scale.X(frame.Bearing), scale.Left + NumberPx, scale.Right - NumberPx);

    // The topmost row bears its numbers at its upper edge, the lowest at its lower one, where they do not overlap.
    private double NumberY(Frame frame, SetLayout layout)
    {
        var side = frame.Row == 0 ? 0.9 : frame.Row == layout.Rows - 1 ? -0.9 : 0;
        return Math.Clamp(Y(frame.PointAt(0, side).Altitude) + (NumberPx / 2), top + NumberPx + 2, Bottom - 5);
    }
}
