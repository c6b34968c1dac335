using Glowcast.Engine.Light;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>Direct light on one point of the ground over a day.</summary>
public sealed record TargetLightAnswer(
    double TargetHeightM, IReadOnlyList<LitIntervalAnswer> AnyLimb, IReadOnlyList<LitIntervalAnswer> Centre,
    IReadOnlyList<LitIntervalAnswer> WholeDisc, BeyondGridAnswer BeyondGrid)
{
    public static TargetLightAnswer Of(DirectLight light, SightModel model, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(light);
        return new TargetLightAnswer(
            light.Target.Height.Metres, All(light.AnyLimb, zone), All(light.Centre, zone), All(light.WholeDisc, zone), BeyondGridAnswer.Of(model));
    }

    private static IReadOnlyList<LitIntervalAnswer> All(IReadOnlyList<LitInterval> intervals, DateTimeZone? zone) =>
        [.. intervals.Select(interval => LitIntervalAnswer.Of(interval, zone))];
}

/// <summary>A stretch of direct light: UTC to 0.1 s, start included, end excluded.</summary>
/// <param name="StartUncertaintyS">One standard deviation; 0 where the day begins in the light.</param>
/// <param name="StartHorizonM">How far what lets the light in is.</param>
/// <param name="StartIsBeyondGrid">That is the earth assumed past the grid's edge: what really stands there is not known.</param>
public sealed record LitIntervalAnswer(
    string Start, string End, double StartUncertaintyS, double EndUncertaintyS, string? StartLocal, string? EndLocal,
    double? StartSunAzimuthDeg, double? EndSunAzimuthDeg, double? StartHorizonM, double? EndHorizonM, bool StartIsBeyondGrid, bool EndIsBeyondGrid)
{
    /// <summary>What the uncertainty of the start is made of; null where the day begins in the light.</summary>
    public UncertaintyAnswer? StartUncertainty { get; init; }

    /// <summary>The same of the end.</summary>
    public UncertaintyAnswer? EndUncertainty { get; init; }

    public static LitIntervalAnswer Of(LitInterval interval, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(interval);
        return new LitIntervalAnswer(
            Moments.Utc(interval.Time.Start), Moments.Utc(interval.Time.End),
            interval.Start?.Uncertainty.CombinedS ?? 0, interval.End?.Uncertainty.CombinedS ?? 0,
            Moments.Local(interval.Time.Start, zone), Moments.Local(interval.Time.End, zone),
            interval.Start?.SunAzimuth.Degrees, interval.End?.SunAzimuth.Degrees,
            interval.Start?.HorizonDistance?.Metres, interval.End?.HorizonDistance?.Metres,
            interval.Start?.IsBeyondGrid ?? false, interval.End?.IsBeyondGrid ?? false)
        {
            StartUncertainty = UncertaintyAnswer.Of(interval.Start),
            EndUncertainty = UncertaintyAnswer.Of(interval.End),
        };
    }
}

/// <summary>What the uncertainty of a moment is made of, as standard deviations.</summary>
/// <param name="TerrainS">The grid's spacing and the error of its heights.</param>
/// <param name="SightLineS">Terrestrial refraction, k ± 0.05.</param>
/// <param name="RefractionS">The sun's refraction from day to day.</param>
public sealed record UncertaintyAnswer(double TerrainS, double SightLineS, double RefractionS)
{
    public static UncertaintyAnswer? Of(LightEdge? edge) =>
        edge?.Uncertainty is { } parts ? new UncertaintyAnswer(parts.TerrainS, parts.SightLineS, parts.RefractionS) : null;
}
