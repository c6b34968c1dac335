using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>A frame of a set.</summary>
/// <param name="Row">With a plan 0 is the topmost; without, the one shot first.</param>
/// <param name="Column">With a plan 0 is the leftmost; without, the one shot first.</param>
/// <param name="Shot">In the bracket of the frame, from 0.</param>
/// <param name="IsAgain">The same place was shot just before.</param>
/// <param name="AfterFirst">When it was shot.</param>
public sealed record SetFrame(ShotFrame Frame, int Row, int Column, int Shot, bool IsAgain, Duration AfterFirst);
