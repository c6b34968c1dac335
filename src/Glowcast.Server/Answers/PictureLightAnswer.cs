using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>How the picture reads in the middle of a window; one value a bearing in each of the lists, left to right.</summary>
/// <param name="BlackPoint">Of the median bearing; null where no ridge is lit.</param>
/// <param name="Relief">Of the whole visible ridge.</param>
/// <param name="BearingDeg">True.</param>
/// <param name="SunFromViewDeg">Between the bearing and the sun, along the horizon.</param>
/// <param name="OwnShadow">Share of the visible ridge that faces away from the sun; null where no ridge is visible.</param>
/// <param name="CastShadow">Share that faces it but lies in the shadow of other ground.</param>
/// <param name="Stops">Between lit ridge and shaded ground beside it, through the air; null where no ridge is lit.</param>
/// <param name="PathInSun">Share of the airlight before the ridge that comes from sunlit air.</param>
public sealed record PictureLightAnswer(
    BlackPointAnswer? BlackPoint, ReliefAnswer? Relief, IReadOnlyList<double> BearingDeg, IReadOnlyList<double> SunFromViewDeg,
    IReadOnlyList<LightDirection> Direction, IReadOnlyList<double?> OwnShadow, IReadOnlyList<double?> CastShadow, IReadOnlyList<double?> Stops,
    IReadOnlyList<double?> PathInSun)
{
    public static PictureLightAnswer Of(PictureLight picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var bearings = picture.Bearings;
        return new PictureLightAnswer(
            picture.BlackPoint is { } point ? BlackPointAnswer.Of(point) : null,
            picture.Relief is { } relief ? new ReliefAnswer(relief.Shadow, relief.OwnShadow, relief.CastShadow, relief.Reading) : null,
            [.. bearings.Select(bearing => Math.Round(bearing.Bearing.Degrees, 3))],
            [.. bearings.Select(bearing => Math.Round(bearing.SunFromView.Degrees, 2))],
            [.. bearings.Select(bearing => bearing.Direction)],
            [.. bearings.Select(bearing => Short(bearing.Relief?.OwnShadow))],
            [.. bearings.Select(bearing => Short(bearing.Relief?.CastShadow))],
            [.. bearings.Select(bearing => Short(bearing.BlackPoint?.Stops))],
            [.. bearings.Select(bearing => Short(bearing.PathInSun))]);

        static double? Short(double? value) => value is { } given ? Math.Round(given, 2) : null;
    }
}

/// <summary>Lit ridge against shaded ground at the same distance.</summary>
/// <param name="Stops">As seen through the air.</param>
/// <param name="BareStops">Without any air.</param>
/// <param name="HasFromStops">From so many stops on the verdict is <see cref="BlackPointVerdict.Has"/>.</param>
/// <param name="WeakFromStops">From so many on it is <see cref="BlackPointVerdict.Weak"/>.</param>
/// <param name="HasWithinKm">Farther away than this, air lifts the shade too far for a black point; null where there is none at any distance.</param>
/// <param name="WeakWithinKm">The same for a weak one.</param>
public sealed record BlackPointAnswer(
    BlackPointVerdict Verdict, double Stops, double BareStops, double DistanceKm, double HasFromStops, double WeakFromStops, double? HasWithinKm, double? WeakWithinKm)
{
    public static BlackPointAnswer Of(BlackPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return new BlackPointAnswer(
            point.Verdict, point.Stops, point.BareStops, point.Distance.Kilometres, BlackPoint.LeastStops, BlackPoint.LeastWeakStops,
            point.HasWithin?.Kilometres, point.WeakWithin?.Kilometres);
    }
}

/// <summary>Shadow on the visible ridge, as shares of its height in the picture.</summary>
/// <param name="Shadow">Own and cast together.</param>
public sealed record ReliefAnswer(double Shadow, double OwnShadow, double CastShadow, ReliefReading Reading);
