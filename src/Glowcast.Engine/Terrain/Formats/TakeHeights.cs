namespace Glowcast.Engine.Terrain;

/// <summary>Takes a piece of one row of posts.</summary>
/// <param name="row">Of the source, from north to south.</param>
/// <param name="column">Of the first height, from west to east.</param>
/// <param name="heights">In metres, NaN for a hole; only good until the call returns.</param>
internal delegate void TakeHeights(int row, int column, ReadOnlySpan<float> heights);
