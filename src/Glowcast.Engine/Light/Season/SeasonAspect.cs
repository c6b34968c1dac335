namespace Glowcast.Engine.Light;

/// <summary>What a day of a season is judged by.</summary>
public enum SeasonAspect
{
    /// <summary>How much more of the ridge is lit than the least that makes a window.</summary>
    Coverage,

    /// <summary>How much less of the valley is lit than the most that a window allows.</summary>
    ValleyShade,

    /// <summary>How much room the set has, or without one how long the window is.</summary>
    Length,

    /// <summary>How warm the sun's beam is.</summary>
    Colour,

    /// <summary>Whether light and shadow model the ridge.</summary>
    Relief,

    /// <summary>How far shade lies under lit ground, through the air.</summary>
    BlackPoint,

    /// <summary>Whether one has to be there in the middle of the night.</summary>
    Hour,

    /// <summary>A bright moon in the picture: a bonus that few days have.</summary>
    Moon,

    /// <summary>How often the sky is clear at that time of the year, where that is known.</summary>
    ClearSky,
}
