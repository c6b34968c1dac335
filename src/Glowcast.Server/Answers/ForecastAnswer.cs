using Glowcast.Engine.Forecast;
using Glowcast.Server.Notes;

namespace Glowcast.Server.Answers;

/// <summary>The whole job.</summary>
/// <param name="WhyNone">Why there is no window; null where there is one.</param>
/// <param name="Cloud">What cloud is assumed.</param>
/// <param name="Assumed">What else the answer rests on.</param>
/// <param name="Chart">The light chart; null unless asked for.</param>
/// <param name="Picture">The ridge picture; null unless asked for.</param>
public sealed record ForecastAnswer(
    string Date, string? TimeZone, LookoutAnswer Lookout, SpanAnswer Span, IReadOnlyList<WindowAnswer> Windows, string? WhyNone, SetAnswer? Set,
    FitAnswer? Fit, CloudAnswer Cloud, AssumedAnswer Assumed, IReadOnlyList<string> Cautions, ChartAnswer? Chart, PictureAnswer? Picture)
{
    /// <summary>All pictures that the day offers, of every kind, in order of time; <see cref="Windows"/> are those of the kind that the plan asks for.</summary>
    public IReadOnlyList<PictureOfDayAnswer> Pictures { get; init; } = [];

    /// <summary>Why there is no window, and what to do; null where there is one.</summary>
    public NoLightAnswer? NoLight { get; init; }

    /// <summary>How near a day without a window came to one; null where there is one, and where nothing came near.</summary>
    public NearestMissAnswer? NearestMiss { get; init; }

    /// <summary>What makes the windows mean less than they seem to.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <inheritdoc cref="FramesLightAnswer.Of"/>
    public IReadOnlyList<IReadOnlyList<FramesLightAnswer>>? FramesLight { get; init; }

    /// <summary>The moon, and the earth's shadow over the span.</summary>
    public required SkyOfDayAnswer Sky { get; init; }

    /// <summary>What field notes say of forecasts here and everywhere; null where none are kept.</summary>
    public FieldNotesAnswer? Notes { get; init; }

    /// <summary>Null where the lookout sees nothing.</summary>
    public GroundAnswer? Ground { get; init; }

    public static ForecastAnswer Of(LightForecast forecast, bool withPictures)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var plan = forecast.Plan;
        var zone = plan.Lookout!.Zone;
        return new ForecastAnswer(
            NodaTime.Text.LocalDatePattern.Iso.Format(plan.Date!.Value), zone?.Id,
            new LookoutAnswer(plan.Lookout.Point.LatitudeDeg, plan.Lookout.Point.LongitudeDeg, forecast.Eye.Height.Metres),
            new SpanAnswer(plan.Span.From.Degrees, plan.Span.To.Degrees, plan.Thresholds.RidgeFrom.Kilometres, forecast.Scene?.HighestCrest?.Degrees),
            [.. forecast.Windows.Select((window, i) => WindowAnswer.Of(window, zone, forecast.Brightness) with { Weather = WindowWeatherAnswer.Of(forecast.Weather.ElementAtOrDefault(i), forecast.Eye) })], forecast.WhyNone,
            forecast.Set is null ? null : SetAnswer.Of(forecast.Set, forecast.Scene),
            forecast.Fit is null ? null : FitAnswer.Of(forecast),
            CloudAnswer.Of(forecast),
            AssumedAnswer.Of(plan), forecast.Cautions,
            withPictures && forecast.Chart is { } chart ? ChartAnswer.Of(chart, forecast.Brightness, plan.Conditions.Haze) : null,
            withPictures && forecast.Scene is { } scene ? PictureAnswer.Of(scene, forecast.Chart) : null)
        {
            Pictures = PictureOfDayAnswer.Of(forecast),
            NoLight = NoLightAnswer.Of(forecast),
            NearestMiss = NearestMissAnswer.Of(forecast.NearestMiss, zone),
            Warnings = forecast.Warnings,
            FramesLight = withPictures ? FramesLightAnswer.Of(forecast) : null,
            Sky = SkyOfDayAnswer.Of(forecast),
            Ground = GroundAnswer.Of(forecast.Scene?.Grid),
        };
    }
}

/// <summary>The light on the span, without a set.</summary>
public sealed record SpanLightAnswer(IReadOnlyList<WindowAnswer> Windows, string? WhyNone, AssumedAnswer Assumed, ChartAnswer? Chart)
{
    /// <inheritdoc cref="ForecastAnswer.Pictures"/>
    public IReadOnlyList<PictureOfDayAnswer> Pictures { get; init; } = [];

    /// <inheritdoc cref="ForecastAnswer.NearestMiss"/>
    public NearestMissAnswer? NearestMiss { get; init; }

    /// <inheritdoc cref="ForecastAnswer.Ground"/>
    public GroundAnswer? Ground { get; init; }

    /// <inheritdoc cref="ForecastAnswer.Warnings"/>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    public static SpanLightAnswer Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return new SpanLightAnswer(
            [.. forecast.Windows.Select((window, i) => WindowAnswer.Of(window, forecast.Plan.Lookout!.Zone, forecast.Brightness) with { Weather = WindowWeatherAnswer.Of(forecast.Weather.ElementAtOrDefault(i), forecast.Eye) })], forecast.WhyNone,
            AssumedAnswer.Of(forecast.Plan), forecast.Chart is { } chart ? ChartAnswer.Of(chart, forecast.Brightness, forecast.Plan.Conditions.Haze) : null)
        {
            Pictures = PictureOfDayAnswer.Of(forecast),
            NearestMiss = NearestMissAnswer.Of(forecast.NearestMiss, forecast.Plan.Lookout!.Zone),
            Ground = GroundAnswer.Of(forecast.Scene?.Grid),
            Warnings = forecast.Warnings,
        };
    }
}

/// <param name="EyeHeightM">Above the grid's vertical datum.</param>
public sealed record LookoutAnswer(double LatitudeDeg, double LongitudeDeg, double EyeHeightM);

/// <param name="HighestCrestDeg">Apparent altitude of the highest ridge; null where none is visible.</param>
public sealed record SpanAnswer(double FromDeg, double ToDeg, double RidgeFromKm, double? HighestCrestDeg);

/// <summary>What an answer rests on; shares lie between 0 and 1.</summary>
public sealed record AssumedAnswer(
    double CrestBandDeg, double CrestLit, double ColumnsLit, double DiscShare, double ValleyLit, double RefractionK, BeyondGridAnswer BeyondGrid)
{
    /// <summary>Ground farther than this is ridge, nearer ground is valley.</summary>
    public required double RidgeFromKm { get; init; }

    /// <summary>Of the air before the ridge: the distance at which 2 % of contrast is left.</summary>
    public required double VisibilityKm { get; init; }

    /// <summary>How a reported visibility was taken; null where none was.</summary>
    public string? VisibilityReport { get; init; }

    /// <summary>Of the air between the sun and the ridge.</summary>
    public required double AerosolBeta { get; init; }

    public required double LitRidgeReflectance { get; init; }

    public required double ShadedGroundReflectance { get; init; }

    /// <summary>Ground at least so high gives back <see cref="LitRidgeReflectance"/>, lower ground <see cref="ShadedGroundReflectance"/>; null where ridge and valley do.</summary>
    public double? SnowLineM { get; init; }

    /// <summary>Of the top of a sea of cloud.</summary>
    public required double DeckReflectance { get; init; }

    /// <summary>Ground is lit when direct light lifts it by so many stops over the same ground in shade.</summary>
    public required double LitStops { get; init; }

    /// <summary>A valley of which no more is lit than this share of all ground in the picture does no harm.</summary>
    public required double ValleyPart { get; init; }

    /// <summary>A window is one only where it is about at least this share of the ridge in the picture.</summary>
    public required double LeastPicture { get; init; }

    /// <summary>Bearings without light are named where so many degrees of them lie side by side.</summary>
    public required double UnlitGapDeg { get; init; }

    public static AssumedAnswer Of(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var thresholds = plan.Thresholds;
        return new AssumedAnswer(
            thresholds.CrestBand.Degrees, thresholds.CrestLit, thresholds.ColumnsLit, thresholds.DiscShare, thresholds.ValleyLit,
            plan.Conditions.Sight.RefractionK, BeyondGridAnswer.Of(plan.Conditions.Sight))
        {
            RidgeFromKm = thresholds.RidgeFrom.Kilometres,
            VisibilityKm = plan.Conditions.Visibility.Kilometres,
            VisibilityReport = plan.Conditions.VisibilityReport?.Sentence,
            AerosolBeta = plan.Conditions.AerosolBeta,
            LitRidgeReflectance = plan.Conditions.Reflectances.LitRidge,
            ShadedGroundReflectance = plan.Conditions.Reflectances.ShadedGround,
            SnowLineM = plan.Conditions.SnowLine?.Metres,
            DeckReflectance = plan.Conditions.DeckReflectance,
            LitStops = thresholds.LitStops,
            ValleyPart = thresholds.ValleyPart,
            LeastPicture = thresholds.LeastPicture,
            UnlitGapDeg = thresholds.UnlitGap.Degrees,
        };
    }
}
