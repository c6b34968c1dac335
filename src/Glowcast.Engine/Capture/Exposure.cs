using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>One opening of the shutter; all numbers count from 0.</summary>
/// <param name="Set">0 is the first, 1 its first repeat.</param>
/// <param name="Row">0 is the topmost.</param>
/// <param name="Column">0 is the leftmost, spare frames included.</param>
/// <param name="Frame">The place of the frame in the order of its set.</param>
/// <param name="Shot">The place in the bracket of the frame.</param>
/// <param name="Start">When the shutter opens, from the start of the first set.</param>
/// <param name="End">When it closes.</param>
public readonly record struct Exposure(int Set, int Row, int Column, int Frame, int Shot, Duration Start, Duration End)
{
    public Duration Middle => Start + ((End - Start) / 2);
}
