namespace Glowcast.Engine.Light;

/// <summary>Direct light on one patch over a day.</summary>
/// <param name="InSun">When it sees enough of the disc, whichever way it faces.</param>
/// <param name="Lit">When the place in its middle is seen to be lit: in the sun, and lifted enough over its own shade.</param>
/// <param name="Crossings">The ends of the lit stretches, for their uncertainty.</param>
internal sealed record PatchLight(IReadOnlyList<SunStretch> InSun, IReadOnlyList<Stretch> Lit, IReadOnlyList<HorizonCrossing> Crossings);
