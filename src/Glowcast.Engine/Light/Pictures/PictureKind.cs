namespace Glowcast.Engine.Light;

/// <summary>A kind of picture, by what must be lit in it and what dark (docs/model.md, L7 and L7b).</summary>
public enum PictureKind
{
    /// <summary>Enough of the ridge lit, and little enough of the valley.</summary>
    LitRidgeOverDarkGround,

    /// <summary>From the first tip in the light to half of the crest, or from half of it to the last tip.</summary>
    LitTips,

    /// <summary>Enough of the ridge lit, whatever the valley does.</summary>
    LitRidge,

    /// <summary>Enough of the ridge lit, over a sea of cloud in shade.</summary>
    OverShadedDeck,

    /// <summary>The same over a sea of cloud in the sun.</summary>
    OverLitDeck,

    /// <summary>The sun below the ridge's level horizon, and not yet 6° below the lookout's.</summary>
    Twilight,

    /// <summary>Enough of the ridge lit by the moon, in a dark sky.</summary>
    MoonlitRidge,
}

internal static class PictureKinds
{
    /// <summary>Each bearing must have its light; else the picture as a whole.</summary>
    public static bool AsksOfBearings(this PictureKind kind) => kind is not (PictureKind.LitTips or PictureKind.Twilight);
}
