using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>The frames of a set, its print and its clock.</summary>
/// <param name="Frames">Columns × rows, without spare frames.</param>
/// <param name="NearLimitM">Of sharpness, focused at infinity.</param>
/// <param name="ParallaxFreeM">From here on turning beside the no-parallax point costs less than a pixel.</param>
/// <param name="LevelCropPx">Lost to the level error at its worst.</param>
/// <param name="SetCount">The first set and its repeats.</param>
/// <param name="Order">How it is shot.</param>
/// <param name="ClickStops">Null where the plan names no stops of the rotator.</param>
/// <param name="Spoils">What can spoil the picture.</param>
/// <param name="Exposures">Every exposure of every set in the order of shooting, for drawing them over the light.</param>
public sealed record SetAnswer(
    int Columns, int Rows, int Frames, int ColumnsWithSpares, int FramesPerSet, double HorizontalFovDeg, double VerticalFovDeg, double StepDeg,
    double RowStepDeg, double CoveredHorizontalDeg, double CoveredVerticalDeg, double FocalLengthPx, double PixelPitchUm, double WidthPx,
    double CleanWidthPx, double CleanHeightPx, double PrintWidthMm, double PrintHeightMm, double PrintPpi, double ViewingDistanceMm,
    double HyperfocalM, double NearLimitM, double AiryDiameterUm, double ParallaxFreeM, double LevelCropPx, double FirstToLastS, double SetS,
    double TotalS, double MaxSideGapS, double MaxVerticalGapS, int SetCount, OrderAnswer Order, IReadOnlyList<ExposureAnswer> Exposures,
    PrintAnswer Print, ClickStopsAnswer? ClickStops, IReadOnlyList<SpoilAnswer> Spoils)
{
    /// <summary>Apparent altitude of the lower edge of the clean rectangle.</summary>
    public required double CleanBottomDeg { get; init; }

    /// <summary>Apparent altitude of its upper edge.</summary>
    public required double CleanTopDeg { get; init; }

    /// <param name="scene">What the lookout sees, for all that hangs on distances; null where no grid has been looked at.</param>
    public static SetAnswer Of(PlannedSet set, Scene? scene = null)
    {
        ArgumentNullException.ThrowIfNull(set);
        var (layout, clock) = (set.Layout, set.Clock);
        var view = scene is null ? null : RidgeInView.Of(layout, scene, set.Plan.Conditions.DeckTop);
        return new SetAnswer(
            layout.Columns, layout.Rows, layout.Columns * layout.Rows, layout.ColumnsWithSpares, layout.FramesPerSet,
            layout.Field.Horizontal.Degrees, layout.Field.Vertical.Degrees, layout.Across.Step.Degrees, layout.Up.Step.Degrees,
            layout.Across.Covered.Degrees, layout.Up.Covered.Degrees, layout.Field.FocalLengthPx, layout.Field.PixelPitchUm, layout.WidthPx,
            layout.Clean.WidthPx, layout.Clean.HeightPx, layout.Print.Width.Millimetres, layout.Print.Height.Millimetres, layout.Print.Ppi,
            layout.Print.ViewingDistance.Millimetres, layout.Sharpness.Hyperfocal.Metres, layout.Sharpness.NearLimit.Metres,
            layout.Sharpness.AiryDiameterUm, layout.Parallax.FreeFrom.Metres, layout.Levelling.WorstCropPx, clock.FirstToLast.TotalSeconds,
            clock.SetLength.TotalSeconds, clock.Total.TotalSeconds, clock.MaxSideGap.TotalSeconds, clock.MaxVerticalGap.TotalSeconds,
            clock.Repeats + 1, new OrderAnswer(clock.Order.Direction, clock.Order.Rows, clock.Order.FirstRow + 1, set.OrderReasons),
            [.. clock.Exposures.Select(exposure => ExposureAnswer.Of(exposure, layout))],
            PrintAnswer.Of(set, view), ClickStopsAnswer.Of(layout), [.. Spoilers.Of(set, view).Select(SpoilAnswer.Of)])
        {
            CleanBottomDeg = layout.Clean.Bottom.Degrees,
            CleanTopDeg = layout.Clean.Top.Degrees,
        };
    }
}

/// <summary>The order of shooting.</summary>
/// <param name="FirstRow">Shot first; 1 is the topmost.</param>
/// <param name="Reasons">Why, a sentence each; empty where the plan says it itself.</param>
public sealed record OrderAnswer(SweepDirection Direction, RowOrder Rows, int FirstRow, IReadOnlyList<string> Reasons);

/// <summary>One exposure: where the camera points, and when after the start of the first marker frame.</summary>
/// <param name="Set">1 is the first.</param>
/// <param name="Row">1 is the topmost.</param>
/// <param name="Column">1 is the leftmost, spare frames included.</param>
public sealed record ExposureAnswer(int Set, int Row, int Column, double BearingDeg, double PitchDeg, bool Spare, double StartS, double EndS)
{
    public static ExposureAnswer Of(Exposure exposure, SetLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var frame = layout.FrameAt(exposure.Row, exposure.Column);
        return new ExposureAnswer(
            exposure.Set + 1, exposure.Row + 1, exposure.Column + 1, frame.Bearing.Degrees, frame.Pitch.Degrees, frame.Spare,
            exposure.Start.TotalSeconds, exposure.End.TotalSeconds);
    }
}
