using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The answer to a plan: the light on its span, its windows, its set, and whether the one fits into the other.</summary>
/// <param name="Day">The local day asked for.</param>
/// <param name="Eye">The lookout's eye, with its height.</param>
/// <param name="Scene">What is seen; null where the lookout is under the deck.</param>
/// <param name="Chart">Null when the sun does not rise far enough that day, or nothing is seen.</param>
/// <param name="Windows">Empty is an ordinary answer; <paramref name="WhyNone"/> then says why.</param>
/// <param name="WhyNone">A sentence; null where there are windows.</param>
/// <param name="Set">Null where the plan has no camera.</param>
/// <param name="Fit">Null where the plan has no camera.</param>
/// <param name="Remedies">What would make it fit; empty where it does.</param>
public sealed record LightForecast(
    Plan Plan, Interval Day, Place Eye, Scene? Scene, LightChart? Chart, IReadOnlyList<LightWindow> Windows, string? WhyNone,
    PlannedSet? Set, SetFit? Fit, IReadOnlyList<Remedy> Remedies, IReadOnlyList<string> Cautions)
{
    /// <summary>The cloud assumed, and what a sounding tells of it.</summary>
    public required CloudOutlook Cloud { get; init; }

    /// <summary>All pictures that the day offers, of every kind, in order of time; those of <see cref="Windows"/> among them.</summary>
    public IReadOnlyList<PictureOfDay> Pictures { get; init; } = [];

    /// <summary>Why there is no window; null where there is one.</summary>
    public NoLightCause? NoLight { get; init; }

    /// <summary>What weather files say of each window; null for one that they do not reach, empty without files.</summary>
    public IReadOnlyList<WindowWeather?> Weather { get; init; } = [];

    /// <summary>How bright the lit ridge is through the day; null without a chart.</summary>
    public RidgeBrightness? Brightness { get; init; }

    /// <summary>What in the scene makes its windows mean less than they seem to.</summary>
    public IReadOnlyList<string> Warnings => SceneWarnings.Of(Scene);

    /// <summary>Why neither the set nor any change of it fits, in a sentence; null where something does.</summary>
    public string? WhyNothingFits { get; init; }

    /// <summary>The moment that came nearest to a window; null where there is one, and where nothing came near.</summary>
    public NearestMiss? NearestMiss { get; init; }

    /// <summary>When to start: as the plan says, as advised, or, where no start is possible, where least is lost. Null without a set or a window.</summary>
    public Instant? Start => Fit?.ChosenStart;

    /// <summary>The window that the set is laid into, or without a set the longest; null where there is none.</summary>
    public LightWindow? BestWindow => Start is { } start
        ? Windows.MinBy(window => Duration.Max(Duration.Max(window.Start.At - start, start - window.End.At), Duration.Zero))
        : Windows.MaxBy(window => window.Length);
}
