namespace Glowcast.Engine.Light;

/// <summary>Direct light on one patch over a day.</summary>
/// <param name="Lit">When it sees enough of the disc to count as lit.</param>
/// <param name="Crossings">The ends of those stretches, for their uncertainty.</param>
internal sealed record PatchLight(IReadOnlyList<Stretch> Lit, IReadOnlyList<HorizonCrossing> Crossings);
