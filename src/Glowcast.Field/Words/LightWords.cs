using Glowcast.Engine.Light;

namespace Glowcast.Field.Words;

/// <summary>What the light does, in words.</summary>
internal static class LightWords
{
    public static string Because(WindowEdgeCause cause) => cause switch
    {
        WindowEdgeCause.RidgeLit => "the ridge is lit",
        WindowEdgeCause.RidgeShaded => "the ridge loses the sun",
        WindowEdgeCause.ValleyLit => "the sun reaches the valley",
        WindowEdgeCause.ValleyShaded => "the valley is in shade",
        WindowEdgeCause.TipsLit => "the first tips are lit",
        WindowEdgeCause.TipsShaded => "the last tips lose the sun",
        WindowEdgeCause.HalfLit => "half of the crest is lit",
        WindowEdgeCause.DeckLit => "the sun reaches the sea of cloud",
        WindowEdgeCause.DeckShaded => "the sea of cloud is in shade",
        WindowEdgeCause.SunOnHorizon => "the sun's edge on the ridge's level horizon",
        WindowEdgeCause.CivilTwilight => "the sun 6° below the horizontal",
        WindowEdgeCause.MoonlitNight => "the moon low, or the sky too bright for it",
        _ => "the day begins or ends",
    };

    /// <summary>A kind of picture.</summary>
    public static string Of(PictureKind kind) => kind switch
    {
        PictureKind.LitRidgeOverDarkGround => "lit ridge over dark ground",
        PictureKind.LitTips => "lit tips",
        PictureKind.LitRidge => "lit ridge",
        PictureKind.OverShadedDeck => "lit ridge over cloud in shade",
        PictureKind.OverLitDeck => "lit ridge over lit cloud",
        PictureKind.Twilight => "ridge in twilight",
        _ => "moonlit ridge",
    };

    public static string Of(LightDirection direction) => direction switch
    {
        LightDirection.Front => "front light, from behind the camera",
        LightDirection.Side => "side light",
        _ => "back light, towards the camera",
    };

    public static string Of(BlackPointVerdict verdict) => verdict switch
    {
        BlackPointVerdict.Has => "there is one",
        BlackPointVerdict.Weak => "weak",
        _ => "none",
    };

    /// <summary>Bearings that a window does not light; null where it lights all.</summary>
    public static string? Unlit(LightWindow window)
    {
        ArgumentNullException.ThrowIfNull(window);
        return window.Unlit.Count == 0 ? null
            : string.Join(", ", window.Unlit.Select(unlit => $"{unlit.From.Degrees:0.#}° to {unlit.To.Degrees:0.#}° {(unlit.Why == UnlitReason.ShadeAllDay ? "stay in the shade all day" : "have no light in this window")}"))
                + $"; the window is about the other {Say.Share(window.PictureShare)} of the ridge in the picture";
    }

    /// <summary>"move an end by 2 min 10 s", by ground past the grid; null where it would hardly.</summary>
    public static string? CouldMove(NodaTime.Duration by) => by.TotalSeconds >= 1 ? $"move an end by {Say.Time(by)}" : null;

    /// <summary>What gives the picture its dark.</summary>
    public static string Dark(DarkGround dark) => dark.From switch
    {
        DarkSource.Valley => $"the valley; {Say.Share(dark.Share)} of the ground in the picture is dark",
        DarkSource.Deck => $"the cloud in shade; {Say.Share(dark.Share)} of the ground in the picture is dark",
        DarkSource.Ridge => $"slopes of the ridge that the sun does not light; {Say.Share(dark.Share)} of the ground in the picture is dark",
        _ => "next to nothing in the picture",
    };
}
