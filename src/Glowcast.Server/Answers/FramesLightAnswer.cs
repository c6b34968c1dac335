using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>When the frames of one column of the set have their light, in and around one window (docs/model.md, F2): starts and ends in
/// turn, in seconds after the chart's start.</summary>
/// <param name="RidgeLitS">Enough of their own ridge is lit.</param>
/// <param name="GoodS">The valley is in shade too.</param>
public sealed record FramesLightAnswer(IReadOnlyList<double> RidgeLitS, IReadOnlyList<double> GoodS)
{
    /// <summary>For each window, the columns of the set from left to right; null without a set or a chart.</summary>
    public static IReadOnlyList<IReadOnlyList<FramesLightAnswer>>? Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast is not { Chart: { } chart, Set.Layout: { } layout }) return null;
        return [.. forecast.Windows.Select(window =>
        {
            var frames = new FrameLight(PictureStretches.SpanOf(chart, forecast.Plan.Picture), new Stretch(chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At)), layout);
            return Enumerable.Range(0, layout.ColumnsWithSpares)
                .Select(column => new FramesLightAnswer(ChartAnswer.EndsOf(frames.RidgeLit(column)), ChartAnswer.EndsOf(frames.Good(column)))).ToList();
        })];
    }
}
