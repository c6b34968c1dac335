using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What a set is laid over: the light of a day for one kind of picture.</summary>
/// <param name="Ridge">How bright the lit ridge is through the day.</param>
internal sealed record LightOfDay(LightChart Chart, IReadOnlyList<LightWindow> Windows, RidgeBrightness Ridge, SetWishes Wishes)
{
    public PictureKind Kind { get; init; }

    /// <summary>What the frames are held against.</summary>
    public SpanLight Span => PictureStretches.SpanOf(Chart, Kind);

    public EdgeDoubts Doubts { get; init; } = EdgeDoubts.Of(Chart);

    /// <summary>The windows, in seconds of the chart.</summary>
    public List<Stretch> Stretches => [.. Windows.Select(window => new Stretch(Chart.Track.SecondsAt(window.Start.At), Chart.Track.SecondsAt(window.End.At)))];
}
