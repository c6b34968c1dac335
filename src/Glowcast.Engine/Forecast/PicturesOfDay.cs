using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The light of a plan's day, for each kind of picture.</summary>
/// <param name="Brightness">Of the ridge in the sun.</param>
internal sealed record PicturesOfDay(Plan Plan, Interval Day, Scene Scene, LightChart Chart, RidgeBrightness Brightness)
{
    /// <summary>The windows of one kind, as the camera sees them.</summary>
    public LightOfDay Of(PictureKind kind, CancellationToken cancel = default)
    {
        var wishes = SetWishes.Of(Plan, Plan.Date!.Value);
        if (kind != PictureKind.MoonlitRidge) return Under(Chart, Brightness, kind, wishes);
        var (haze, air) = (Plan.Conditions.Haze, Plan.Conditions.Air);
        return Moonlight.Of(Day, Scene.Lookout) is { } moon && LightChart.Under(moon, Scene, Plan.Conditions.Beam, cancel) is { } chart
            ? Under(chart, RidgeBrightness.Of(Scene, chart.Track, haze, air, moon)!, kind, wishes)
            : new LightOfDay(Chart, [], Brightness, wishes) { Kind = PictureKind.LitRidge };
    }

    /// <summary>All pictures of the day in order of time, each with the set laid into it.</summary>
    /// <param name="main">Of the kind that the forecast is about.</param>
    /// <param name="crest">The highest in the span, by which the rows are pitched; null to lay no set.</param>
    public IReadOnlyList<PictureOfDay> All(LightOfDay main, Angle? crest, CancellationToken cancel) =>
    [
        .. Enum.GetValues<PictureKind>().Select(kind => kind == main.Kind ? main : Of(kind, cancel)).SelectMany(light => Pictures(light, crest)).OrderBy(picture => picture.Window.Start.At),
    ];

    private IEnumerable<PictureOfDay> Pictures(LightOfDay light, Angle? crest)
    {
        if (light.Windows.Count == 0) return [];
        if (crest is not { } highest) return light.Windows.Select(window => new PictureOfDay(window, null));
        // Start and exposure that the plan gives are for the picture that it asks for.
        var isPlanned = light.Kind == Plan.Picture;
        var free = light with { Wishes = light.Wishes with { Start = null, ChooseExposure = !isPlanned || light.Wishes.ChooseExposure } };
        var sets = new SetSequence(SetOrder.For(Plan, light.Span, light.Stretches, highest));
        var day = JudgedDay.Of(free);
        return light.Windows.Select((window, i) => new PictureOfDay(window, FitSearch.Fit(day with { Windows = [day.Windows[i]] }, sets)));
    }

    private LightOfDay Under(LightChart chart, RidgeBrightness brightness, PictureKind kind, SetWishes wishes)
    {
        var light = new LightOfDay(chart, [.. WindowSearch.Windows(chart, kind).Select(window => Seen(chart, brightness, window))], brightness, wishes) { Kind = kind };
        return kind == PictureKind.Twilight ? light with { Doubts = EdgeDoubts.None } : light;
    }

    /// <summary>As the camera sees it.</summary>
    private LightWindow Seen(LightChart chart, RidgeBrightness brightness, LightWindow window) => window with
    {
        Picture = window.Kind == PictureKind.Twilight ? null : PictureLight.At(chart, window.Middle, brightness.At(window.Middle), Plan.Conditions.Visibility, Plan.Conditions.Reflectances),
        Tones = WindowTones.Of(chart, new Interval(window.Start.At, window.End.At), brightness, Plan.Conditions.Visibility, Plan.Conditions.Surfaces, Plan.Exposure),
    };
}
