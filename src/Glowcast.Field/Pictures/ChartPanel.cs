using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>The light chart around a window: bearing across, time down; the window outlined, the set drawn over it as a stair.</summary>
internal sealed class ChartPanel
{
    private const double BeyondPx = 5;
    private static readonly double[] TimeStepsS = [300, 600, 900, 1800, 3600, 7200];

    private readonly LightForecast forecast;
    private readonly LightChart chart;
    private readonly PlateScale scale;
    private readonly Clock clock;
    private readonly double fromS;
    private readonly double toS;
    private readonly Box plot;

    /// <param name="around">How much to show before and after the best window; all of the day where there is none.</param>
    public ChartPanel(LightForecast forecast, LightChart chart, PlateScale scale, double top, double height, Duration around)
    {
        (this.forecast, this.chart, this.scale) = (forecast, chart, scale);
        clock = new Clock(forecast.Plan.Date!.Value, forecast.Plan.Lookout!.Zone);
        plot = new Box(scale.Left, top, scale.Width, height);
        (fromS, toS) = forecast.BestWindow is { } window
            ? (Math.Max(0, S(window.Start.At) - around.TotalSeconds), Math.Min(chart.Track.LengthS, S(window.End.At) + around.TotalSeconds))
            : (0, chart.Track.LengthS);
    }

    public IEnumerable<Mark> Marks() =>
    [
        .. Light(), .. Times(),
        new Clip(plot with { X = plot.X - BeyondPx, Width = plot.Width + (2 * BeyondPx) }, [.. forecast.Windows.SelectMany(Window), .. Stair()]),
        new Outline(plot.Corners, null, new Pen(Inks.Quiet)),
    ];

    private double S(Instant instant) => chart.Track.SecondsAt(instant);

    private double Y(double seconds) => plot.Y + ((seconds - fromS) / (toS - fromS) * plot.Height);

    private IEnumerable<Fill> Light()
    {
        var boxes = new Dictionary<Texture, List<Box>>();
        for (var (first, next) = (0, 0); first < chart.Scene.Columns; first = next)
        {
            var runs = Runs(first);
            for (next = first + 1; next < chart.Scene.Columns && Runs(next).SequenceEqual(runs); next++) { }
            var (left, right) = (ColumnX(first), ColumnX(next));
            foreach (var (light, top, bottom) in runs)
            {
                var texture = TextureOf(light);
                if (!boxes.TryGetValue(texture, out var alike)) boxes[texture] = alike = [];
                alike.Add(new Box(left, top, right - left, bottom - top));
            }
        }
        return boxes.Select(alike => new Fill(alike.Key, alike.Value));
    }

    private double ColumnX(int column) => plot.X + Math.Round((double)column / chart.Scene.Columns * plot.Width);

    /// <summary>The light of a column, from the top of the plot down.</summary>
    private List<(CellLight Light, double Top, double Bottom)> Runs(int column)
    {
        var (cell, runs) = (ChartCell.Of(chart, column, chart.Scene.Columns), new List<(CellLight Light, double Top, double Bottom)>());
        for (var row = 0; row < plot.Height; row++)
        {
            var light = cell.At(fromS + ((row + 0.5) / plot.Height * (toS - fromS)));
            if (runs.Count > 0 && runs[^1].Light == light) runs[^1] = runs[^1] with { Bottom = plot.Y + row + 1 };
            else runs.Add((light, plot.Y + row, plot.Y + row + 1));
        }
        return runs;
    }

    private IEnumerable<Mark> Times()
    {
        var stepS = TimeStepsS.FirstOrDefault(step => step / (toS - fromS) * plot.Height >= 26, TimeStepsS[^1]);
        var first = Math.Ceiling((chart.Track.At(fromS) - NodaConstants.UnixEpoch).TotalSeconds / stepS) * stepS;
        for (var at = Instant.FromUnixTimeSeconds((long)first); S(at) <= toS; at += Duration.FromSeconds(stepS))
        {
            var y = Y(S(at));
            yield return new Line(new Spot(plot.X - 5, y), new Spot(plot.Right, y), new Pen(Inks.Ink, 1, 0.16));
            if (y > plot.Y + 6 && y < plot.Bottom - 4) yield return new Label(clock.Short(at), new Spot(plot.X - 8, y + 4), 11.5, Anchor.End, Inks.Quiet);
        }
    }

    private IEnumerable<Mark> Window(LightWindow window)
    {
        var (top, bottom, pen) = (Y(S(window.Start.At)), Y(S(window.End.At)), new Pen(Inks.Ink, 1.75));
        yield return new Outline(new Box(plot.X, top, plot.Width, bottom - top).Corners, null, pen);
        foreach (var edge in new[] { window.Start, window.End })
        {
            var halfPx = edge.Uncertainty.CombinedS / (toS - fromS) * plot.Height;
            foreach (var x in new[] { plot.X + 8, plot.Right - 8 })
            {
                var (from, to) = (Y(S(edge.At)) - halfPx, Y(S(edge.At)) + halfPx);
                yield return new Line(new Spot(x, from), new Spot(x, to), pen);
                foreach (var y in new[] { from, to }) yield return new Line(new Spot(x - 4, y), new Spot(x + 4, y), pen);
            }
        }
        yield return Note(window.Start, top - 6);
        yield return Note(window.End, bottom + 15);
    }

    private Label Note(WindowEdge edge, double y) =>
        new($"{clock.Time(edge.At)}  {LightWords.Because(edge.Cause)}", new Spot(plot.X + 18, y), 12.5, Anchor.Start, Inks.Ink, Inks.Paper);

    private IEnumerable<Mark> Stair()
    {
        if (forecast is not { Set: { } set, Start: { } start }) yield break;
        var half = set.Layout.Field.Horizontal.Degrees / 2 * scale.PerDegree;
        var height = Math.Clamp(set.Clock.Step.TotalSeconds / (toS - fromS) * plot.Height * 0.62, 1.2, 5);
        foreach (var exposure in set.Clock.Exposures.Where(exposure => exposure.Shot == 0))
        {
            var frame = set.Layout.FrameAt(exposure.Row, exposure.Column);
            var (middle, y) = (scale.X(frame.Bearing), Y(S(start + exposure.Middle)));
            var (left, right) = (Math.Max(plot.X - BeyondPx, middle - half), Math.Min(plot.Right + BeyondPx, middle + half));
            if (right <= left) continue;
            var box = new Box(left, y - (height / 2), right - left, height);
            yield return frame.Spare ? new Outline(box.Corners, Inks.Paper, new Pen(Inks.Bar, 0.75)) : new Outline(box.Corners, Inks.Bar, null);
        }
        if (forecast.Fit?.FirstProblem is { } problem)
        {
            var (x, y, pen) = (Math.Clamp(scale.X(problem.Bearing), plot.X, plot.Right), Y(S(problem.At)), new Pen(Inks.Missing, 2.5));
            yield return new Line(new Spot(x - 5, y - 5), new Spot(x + 5, y + 5), pen);
            yield return new Line(new Spot(x - 5, y + 5), new Spot(x + 5, y - 5), pen);
        }
    }

    private static Texture TextureOf(CellLight light) => light switch
    {
        CellLight.Shade => Texture.Shade,
        CellLight.Partly => Texture.Partly,
        CellLight.Lit => Texture.Lit,
        CellLight.ValleyToo => Texture.ValleyToo,
        _ => Texture.NoRidge,
    };
}
