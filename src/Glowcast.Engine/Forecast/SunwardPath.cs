using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Where a layer of cloud lies across the light of a window on its way to the ridge.</summary>
/// <param name="Window">Counted from 0.</param>
/// <param name="Towards">The sun's bearing half-way through the time cut.</param>
/// <param name="Near">From the ridge, towards the sun.</param>
/// <param name="Far">The same; the beam meets the layer between the two at some time of the window.</param>
/// <param name="Cut">How much of the window's time the beam passes through the layer, were it closed.</param>
public sealed record SunwardCut(CloudLayer Layer, int Window, Azimuth Towards, Length Near, Length Far, Duration Cut, Duration WindowLength)
{
    private static readonly string[] Points = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

    /// <summary>What the light asks of the sky.</summary>
    public string Condition =>
        $"Needs clear sky {Stretch} to the {Points[(int)Math.Round(Towards.Degrees / 45) % Points.Length]} (bearing {Towards.Degrees:0}°, counted from the ridge) at {Heights}: "
        + $"{Layer.Level.ToString().ToLowerInvariant()} cloud there, {100 * Layer.Cover:0} % of the sky, can cost {Cut.TotalMinutes:0} of the window's {WindowLength.TotalMinutes:0} minutes.";

    private string Stretch => Near.Kilometres < 1 ? $"from the ridge out to {Far.Kilometres:0} km" : Far.Kilometres - Near.Kilometres < 1 ? $"{Near.Kilometres:0} km" : $"{Near.Kilometres:0}–{Far.Kilometres:0} km";

    private string Heights => Layer.Top is { } top ? $"{Layer.Base.Metres:0} to {top.Metres:0} m" : $"{Layer.Base.Metres:0} m";
}

/// <summary>Follows the light of each window back towards the sun, through the layers of cloud that a plan names.</summary>
internal static class SunwardPath
{
    private static readonly Duration Step = Duration.FromSeconds(30);

    /// <param name="ridge">The place that stands for the ridge.</param>
    public static IReadOnlyList<SunwardCut> Cuts(IReadOnlyList<CloudLayer> layers, IReadOnlyList<LightWindow> windows, Place ridge, SightModel model) =>
    [
        .. from layer in layers
           where layer.Cover > 0
           from i in Enumerable.Range(0, windows.Count)
           let cut = CutOf(layer, i, windows[i], ridge, model)
           where cut is not null
           select cut,
    ];

    private static SunwardCut? CutOf(CloudLayer layer, int index, LightWindow window, Place ridge, SightModel model)
    {
        // Both ends of the window too: they meet the layer nearest and farthest.
        var steps = (int)Math.Ceiling(window.Length / Step);
        var meetings = (
            from i in Enumerable.Range(0, steps + 1)
            let sun = Sun.At(window.Start.At + (window.Length * ((double)i / steps))).SeenFrom(ridge)
            let beam = new SunwardBeam(ridge.Height, Refraction.ToApparent(sun.AirlessAltitude, ridge.Height), model.RefractionK)
            let through = beam.Through(layer)
            where through is not null
            select (sun.Azimuth, through.Value.Near, through.Value.Far)).ToList();
        return meetings.Count == 0 ? null : new SunwardCut(
            layer, index, meetings[meetings.Count / 2].Azimuth, meetings.Min(meeting => meeting.Near), meetings.Max(meeting => meeting.Far),
            window.Length * ((double)meetings.Count / (steps + 1)), window.Length);
    }
}
