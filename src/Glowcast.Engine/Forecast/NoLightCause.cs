using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Forecast;

/// <summary>Why a day has no window, each with its own next step.</summary>
public enum NoLightCause
{
    /// <summary>The lookout's eye is under the top of the cloud.</summary>
    LookoutInCloud,

    /// <summary>No ground of the grid is seen so far away.</summary>
    NoRidgeInView,

    /// <summary>Ground nearer than the ridge fills the picture.</summary>
    NearGroundInTheWay,

    /// <summary>The ridge stands above what the picture shows, or below.</summary>
    RidgeOutsideThePicture,

    /// <summary>The sun stays more than 6° below the horizon.</summary>
    SunStaysDown,

    /// <summary>The sun is up, and reaches none of the ridge.</summary>
    RidgeNeverLit,

    /// <summary>It never reaches enough of the ridge at once.</summary>
    TooLittleLit,

    /// <summary>There is light, but for less time than its ends are known to.</summary>
    LightTooUnsure,

    /// <summary>What is missing of the ridge, or too much of the valley, is no more than a twentieth.</summary>
    NearlyEnough,

    /// <summary>Whenever enough of the ridge is lit, so is too much of the valley.</summary>
    ValleyLitToo,

    /// <summary>The same, on a day on which the sun does not set.</summary>
    SunNeverSets,

    /// <summary>The day has no picture of the kind that the plan asks for.</summary>
    NoSuchPicture,
}

/// <summary>Tells the causes apart.</summary>
internal static class NoLightCauses
{
    private const double Nearly = 0.05;

    public static NoLightCause Of(NoWindow none, LightChart chart) => none switch
    {
        { Reason: NoWindowReason.NoSuchPicture } => NoLightCause.NoSuchPicture,
        { Reason: NoWindowReason.TooUnsure } => NoLightCause.LightTooUnsure,
        { Nearest: { } near } when near.RidgeMissing <= Nearly && near.ValleyTooMuch <= Nearly => NoLightCause.NearlyEnough,
        { Reason: NoWindowReason.RidgeNeverLit } => NoLightCause.RidgeNeverLit,
        { Reason: NoWindowReason.RidgeNeverLitEnough } => NoLightCause.TooLittleLit,
        _ => chart.Track.LengthS > LongestTwilitDayS && NeverSets(chart) ? NoLightCause.SunNeverSets : NoLightCause.ValleyLitToo,
    };

    /// <summary>Of a span without a ridge: near ground stands in the way where any bearing shows ground up to its skyline.</summary>
    public static NoLightCause WithoutRidge(VisibleSurface view, Length ridgeFrom) =>
        view.Columns.Any(column => column.Skyline is { } crest && crest.DistanceM < ridgeFrom.Metres && column.GridEdge > ridgeFrom)
            ? NoLightCause.NearGroundInTheWay
            : NoLightCause.NoRidgeInView;

    private const double LongestTwilitDayS = 23.5 * 3600;

    private static bool NeverSets(LightChart chart)
    {
        const double lookS = 600;
        var level = Sky.SunEvents.RiseSetAltitude;
        for (var seconds = 0.0; seconds <= chart.Track.LengthS; seconds += lookS)
            if (Sky.Sun.At(chart.Track.At(seconds)).SeenFrom(chart.Scene.Lookout).AirlessAltitude < level) return false;
        return true;
    }
}
