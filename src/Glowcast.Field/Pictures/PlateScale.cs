using Glowcast.Engine.Measures;

namespace Glowcast.Field.Pictures;

/// <summary>Bearings laid out over the width of a plate; its panels share them.</summary>
internal sealed record PlateScale(BearingSpan Span, double Left, double Right)
{
    private static readonly double[] LabelledStepsDeg = [1, 2, 5, 10, 15, 30, 45, 90];
    private static readonly double[] FineStepsDeg = [0.5, 1, 5, 15];
    private const double LabelPx = 46;
    private const double TickPx = 9;

    public double Width => Right - Left;

    public double PerDegree => Width / Span.Width.Degrees;

    public double X(Azimuth bearing) => Left + (Span.Share(bearing) * Width);

    /// <summary>Ticks and bearings, hanging from a line.</summary>
    public IEnumerable<Mark> Axis(double y)
    {
        var pen = new Pen(Inks.Quiet);
        yield return new Line(new Spot(Left, y + 0.5), new Spot(Right, y + 0.5), pen);
        foreach (var at in Multiples(StepFor(TickPx, FineStepsDeg))) yield return new Line(new Spot(X(at), y), new Spot(X(at), y + 4), pen);
        foreach (var at in Multiples(StepFor(LabelPx, LabelledStepsDeg)))
        {
            yield return new Line(new Spot(X(at), y), new Spot(X(at), y + 7), pen);
            yield return new Label($"{at.Degrees:0.#}°", new Spot(X(at), y + 19), 11.5, Anchor.Middle, Inks.Quiet);
        }
    }

    private double StepFor(double leastPx, double[] stepsDeg) => stepsDeg.FirstOrDefault(step => step * PerDegree >= leastPx, stepsDeg[^1]);

    private IEnumerable<Azimuth> Multiples(double stepDeg)
    {
        var (from, to) = (Span.From.Degrees, Span.From.Degrees + Span.Width.Degrees);
        for (var n = Math.Ceiling((from / stepDeg) - 1e-9); n * stepDeg <= to + 1e-9; n++) yield return Azimuth.FromDegrees(n * stepDeg);
    }
}
