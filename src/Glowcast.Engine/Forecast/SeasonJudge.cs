using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays the set of a plan into the windows of a season: the judge of a forecast, over the table of the season.</summary>
internal sealed class SeasonJudge(Plan plan, Angle crest)
{
    /// <summary>Moments of a season may differ by this from those of a forecast, and where they are less sure, by as much as that (docs/accuracy.md).</summary>
    public static readonly Duration TableError = Duration.FromMinutes(1);

    private const int Looks = 24;

    public DayFit FitOf(SeasonLight light, DayHalf half, Stretch window)
    {
        var sets = new SetSequence(SetOrder.For(plan, light.Span, light.Windows, crest));
        var around = new Stretch(window.StartS - sets.TotalS, window.EndS + sets.TotalS);
        var ridge = RidgeBrightness.Of(light.Scene, light.TrackOver(around), plan.Conditions.Haze, plan.Conditions.Air)!;
        var exposure = plan.ChooseExposure ? ExposureOf(ridge, light, window) : (Duration?)null;
        var middleS = (window.StartS + window.EndS) / 2;
        var seen = light.RidgeInAirAt(middleS, ridge.At(light.At(middleS)), plan.Conditions.Visibility, plan.Conditions.Surfaces);
        var day = new JudgedDay(
            [new JudgedWindow(light.Span.Without(plan.DarkStrips), window, half, ridge) { Exposure = exposure, IsRidgeSeen = seen?.IsSeen != false }], light.At,
            new EdgeDoubts(light.Span.LengthS, (seconds, isRidge) => EdgeDoubt.Of(light.ConfidenceAt(seconds, isRidge), isRidge)), SetWishes.Of(plan, light.Date))
        {
            Looks = Looks,
        };
        var fit = FitSearch.Fit(day, sets);
        return new DayFit(
            fit.Verdict, fit.Chance, fit.EarliestStart, fit.LatestStart, fit.ChosenStart!.Value, fit.ChosenStart.Value + Duration.FromSeconds(fit.Judged!.Sets.TotalS / 2),
            fit.Margin!.Value, seen is { IsClose: true } || fit.Judged.CouldBeAnother(fit, TableError + ((exposure ?? Duration.Zero) * sets.Shots.Count)));
    }

    /// <summary>By the light on open ground at the crest, where a forecast looks at all the ground of the picture: the set may then take about twice as long
    /// to expose, or hardly any time.</summary>
    private Duration ExposureOf(RidgeBrightness ridge, SeasonLight light, Stretch window)
    {
        var settings = plan.Exposure;
        var brightest = new[] { window.StartS, (window.StartS + window.EndS) / 2, window.EndS }.Max(seconds => ridge.At(light.At(seconds)).TotalLux);
        return PictureExposure.ClockTime(Metering.ShutterS(ExposureValue.OfIlluminance(brightest), settings.Aperture, settings.Iso));
    }
}
