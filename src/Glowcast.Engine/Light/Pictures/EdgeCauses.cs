namespace Glowcast.Engine.Light;

/// <summary>What opens and closes the windows of each kind of picture.</summary>
internal static class EdgeCauses
{
    private const double SameMomentS = 1e-3;

    /// <param name="opens">A window begins then; else it ends.</param>
    public static WindowEdgeCause Of(LightChart chart, PictureKind kind, double seconds, bool opens)
    {
        if (kind == PictureKind.Twilight) return OfTwilight(chart, seconds, opens);
        if (IsEndOfDark(chart, seconds)) return WindowEdgeCause.MoonlitNight;
        if (seconds <= 0 || seconds >= chart.Track.LengthS) return WindowEdgeCause.DayEnds;
        if (kind == PictureKind.LitTips) return OfTips(chart, seconds, opens);
        var isRidge = chart.RidgeLit.Exists(stretch => (opens ? stretch.StartS : stretch.EndS) == seconds);
        return (isRidge, opens, kind) switch
        {
            (true, true, _) => WindowEdgeCause.RidgeLit,
            (true, false, _) => WindowEdgeCause.RidgeShaded,
            (false, true, PictureKind.OverLitDeck) or (false, false, PictureKind.OverShadedDeck) => WindowEdgeCause.DeckLit,
            (false, false, PictureKind.OverLitDeck) or (false, true, PictureKind.OverShadedDeck) => WindowEdgeCause.DeckShaded,
            (false, true, _) => WindowEdgeCause.ValleyShaded,
            (false, false, _) => WindowEdgeCause.ValleyLit,
        };
    }

    /// <summary>The ground that comes into the light then, or leaves it; null where none does.</summary>
    public static PatchRole? GroundOf(WindowEdgeCause cause) => cause switch
    {
        WindowEdgeCause.DayEnds or WindowEdgeCause.SunOnHorizon or WindowEdgeCause.CivilTwilight or WindowEdgeCause.MoonlitNight => null,
        WindowEdgeCause.ValleyLit or WindowEdgeCause.ValleyShaded or WindowEdgeCause.DeckLit or WindowEdgeCause.DeckShaded => PatchRole.Valley,
        _ => PatchRole.Crest,
    };

    private static bool IsEndOfDark(LightChart chart, double seconds) =>
        chart.Dark?.Any(dark => Math.Abs(dark.StartS - seconds) < SameMomentS || Math.Abs(dark.EndS - seconds) < SameMomentS) ?? false;

    // Tips open in the morning and close in the evening.
    private static WindowEdgeCause OfTips(LightChart chart, double seconds, bool opens) => (chart.IsClimbing(seconds), opens) switch
    {
        (true, true) => WindowEdgeCause.TipsLit,
        (false, false) => WindowEdgeCause.TipsShaded,
        _ => WindowEdgeCause.HalfLit,
    };

    private static WindowEdgeCause OfTwilight(LightChart chart, double seconds, bool opens) =>
        chart.IsClimbing(seconds) == opens ? WindowEdgeCause.CivilTwilight : WindowEdgeCause.SunOnHorizon;
}
