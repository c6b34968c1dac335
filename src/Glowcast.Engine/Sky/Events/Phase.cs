namespace Glowcast.Engine.Sky;

/// <summary>What is there to be seen at a stage of the sun's way; several are there at once.</summary>
public enum Phase
{
    /// <summary>The whole disc is clear of the horizon.</summary>
    DirectLight,

    /// <summary>Direct light that has lost two stops or more on its way.</summary>
    DirectLowSun,

    /// <summary>Part of the disc is clear of the horizon.</summary>
    FirstOrLastDirectLight,

    /// <summary>No direct light; snow and rock glow in the light of the twilight sky (AMS: alpenglow, third stage).</summary>
    Afterglow,

    /// <summary>A purple glow over the sun's place (AMS: purple light), strongest about −4°.</summary>
    PurpleLight,

    /// <summary>A bright band over the sun's place (AMS: bright segment, twilight arch).</summary>
    BrightSegment,

    /// <summary>The earth's shadow on the air opposite the sun (AMS: dark segment).</summary>
    DarkSegment,

    /// <summary>The pink band on top of the earth's shadow (AMS: antitwilight arch).</summary>
    AntitwilightArch,

    CivilTwilight,
    NauticalTwilight,
    AstronomicalTwilight,
    Night,
}
