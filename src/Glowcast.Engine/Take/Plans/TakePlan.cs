using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>What a plan says of the frames that are shot by it; null for what it does not say.</summary>
/// <param name="Clock">Of its sets.</param>
/// <param name="Overlap">The share of a frame that its neighbour repeats.</param>
/// <param name="RowOverlap">The share of a frame that the one above or below it repeats.</param>
public sealed record TakePlan(SetClock Clock, double Overlap = 0.4, double RowOverlap = 0.4)
{
    public Length? FocalLength { get; init; }

    public Orientation? Orientation { get; init; }

    /// <summary>The longer side of the camera's picture by the shorter.</summary>
    public double? Shape { get; init; }

    /// <summary>At the lookout.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>Of the lookout.</summary>
    public GeoPoint? Place { get; init; }

    public static TakePlan Of(PlannedSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        var (plan, settings) = (set.Plan, set.Layout.Settings);
        return new TakePlan(set.Clock, settings.Overlap, settings.RowOverlap)
        {
            FocalLength = plan.Gear?.Lens.FocalLength,
            Orientation = settings.Orientation,
            Shape = plan.Gear?.Camera is { } camera ? (double)Math.Max(camera.PixelsWide, camera.PixelsHigh) / Math.Min(camera.PixelsWide, camera.PixelsHigh) : null,
            Date = plan.Date,
            Place = plan.Lookout?.Point,
        };
    }
}
