using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>One picture that the day offers.</summary>
/// <param name="Name">Of its kind, in words.</param>
/// <param name="Fit">How the set lies in it, from its own best start; null without a set.</param>
public sealed record PictureOfDayAnswer(PictureKind Kind, string Name, WindowAnswer Window, PictureFitAnswer? Fit)
{
    internal static IReadOnlyList<PictureOfDayAnswer> Of(LightForecast forecast)
    {
        var zone = forecast.Plan.Lookout!.Zone;
        return [.. forecast.Pictures.Select(picture => new PictureOfDayAnswer(
            picture.Kind, LightWords.Of(picture.Kind), WindowAnswer.Of(picture.Window, zone), picture.Fit is { } fit ? PictureFitAnswer.Of(fit, zone) : null))];
    }
}

/// <summary>A set in one picture of the day.</summary>
/// <param name="Chance">That every exposure has its light from <paramref name="Start"/>.</param>
/// <param name="Start">The best one.</param>
/// <param name="Sentence">The verdict in words.</param>
public sealed record PictureFitAnswer(
    Verdict Verdict, double Chance, string? Start, string? StartLocal, string? EarliestStart, string? LatestStart, double? RoomBeforeS, double? RoomAfterS, string Sentence)
{
    internal static PictureFitAnswer Of(SetFit fit, DateTimeZone? zone) => new(
        fit.Verdict, Math.Round(fit.Chance, 4), Moments.Utc(fit.ChosenStart), Moments.Local(fit.ChosenStart, zone), Moments.Utc(fit.EarliestStart), Moments.Utc(fit.LatestStart),
        fit.Room?.Before.TotalSeconds, fit.Room?.After.TotalSeconds, FitWords.Verdict(fit));
}
