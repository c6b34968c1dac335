using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Server.Answers;

/// <summary>The light on the ridge minute by minute, for the crest of median height; one value a minute of the chart.</summary>
/// <param name="BeamLux">Of the sun's whole disc on ground that faces it, whatever stands in the way: times the crest's share of the
/// disc it is what arrives. 0 where the sun is under the sea's horizon.</param>
/// <param name="SkyLux">Of the clear sky on level ground.</param>
/// <param name="BeamX">CIE 1931; null where there is no beam.</param>
/// <param name="BeamY">CIE 1931.</param>
/// <param name="PhaseNames">The phases of twilight, in the order of the bits.</param>
/// <param name="Phases">Bit i is set while the phase PhaseNames[i] lasts; 0 by day.</param>
public sealed record ChartMinutesAnswer(
    double CrestHeightM, IReadOnlyList<double> BeamLux, IReadOnlyList<double> SkyLux, IReadOnlyList<double?> BeamX, IReadOnlyList<double?> BeamY,
    IReadOnlyList<Phase> PhaseNames, IReadOnlyList<int> Phases)
{
    private static readonly Phase[] Twilight =
    [
        Phase.Afterglow, Phase.PurpleLight, Phase.BrightSegment, Phase.DarkSegment, Phase.AntitwilightArch, Phase.CivilTwilight, Phase.NauticalTwilight, Phase.AstronomicalTwilight,
    ];

    public static ChartMinutesAnswer Of(LightChart chart, RidgeBrightness ridge, Haze haze)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(ridge);
        var phases = TwilightOnRidge.ByMinute(chart.Track, ridge.Crest, haze);
        var minutes = Enumerable.Range(0, chart.Minutes).Select(minute => (Light: ridge.At(chart.Track.At(minute * 60)), IsDark: phases[minute].Count > 0)).ToList();
        return new ChartMinutesAnswer(
            ridge.Crest.Height.Metres,
            [.. minutes.Select(minute => minute.IsDark ? 0 : Math.Round(minute.Light.DirectLux, 1))],
            [.. minutes.Select(minute => Math.Round(minute.Light.DiffuseLux, 2))],
            [.. minutes.Select(minute => minute.IsDark ? (double?)null : Math.Round(minute.Light.DirectColour.X, 4))],
            [.. minutes.Select(minute => minute.IsDark ? (double?)null : Math.Round(minute.Light.DirectColour.Y, 4))],
            Twilight,
            [.. phases.Select(names => names.Aggregate(0, (bits, name) => bits | (1 << Array.IndexOf(Twilight, name))))]);
    }
}
