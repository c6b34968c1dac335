using Glowcast.Engine.Light;

namespace Glowcast.Cli.Showing;

/// <summary>What a window says of its ends and of the way its light comes and goes.</summary>
internal static class WindowFacts
{
    public static IEnumerable<(string Name, string? Text)> Of(LightWindow window) =>
    [
        ("lit then", $"ridge {Say.Share(window.Start.RidgeShare)} at its start, {Say.Share(window.End.RidgeShare)} at its end; valley {Say.Share(window.Start.ValleyShare)}, {Say.Share(window.End.ValleyShare)}"),
        ("opened by", Horizon(window.Start, "the beam grown strong enough to show, over ")),
        ("closed by", Horizon(window.End, window.End.Cause is WindowEdgeCause.ValleyLit ? "the beam grown strong enough to show there, over " : "the beam too weak to show any more, over ")),
        ("light comes", Sweep(window.Gains)),
        ("light goes", Sweep(window.Loses)),
        ("unlit", LightWords.Unlit(window)),
        ("dark", LightWords.Dark(window.Dark)),
        ("earth's shadow", window.EarthShadowTop is { } top ? $"up to {top.Degrees:0.#}° over the span half-way" : null),
        ("broken", window.BreakBefore is { } gap ? $"parted by {Say.Time(gap.Length)} from the window before it" : null),
    ];

    private static string? Horizon(WindowEdge edge, string byBeam)
    {
        if (edge.Horizon is not { } horizon) return null;
        var what = horizon.Kind switch
        {
            HorizonKind.Terrain => "terrain",
            HorizonKind.Deck => "the deck",
            HorizonKind.OpenHorizon => "the open horizon",
            _ => "the edge of the grid",
        };
        var beam = edge.Uncertainty.IsByBeam ? byBeam : "";
        return $"{beam}{what} on {horizon.SunAzimuth.Degrees:0}°{(horizon.Distance is { } distance ? $", {Say.Distance(distance.Metres)} from the ground it {(beam.Length > 0 ? "lights" : "shades")}" : "")}";
    }

    private static string? Sweep(LightSweep? sweep) => sweep switch
    {
        null => null,
        { From: SweepSide.None } => "on both sides of the span together",
        _ => $"from the {(sweep.From == SweepSide.Left ? "left" : "right")}: first on {sweep.First.Degrees:0.#}°, last on {sweep.Last.Degrees:0.#}°, {Say.Time(sweep.Across)} across",
    };
}
