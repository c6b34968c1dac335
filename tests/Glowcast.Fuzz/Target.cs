namespace Glowcast.Fuzz;

/// <summary>A reader that gets inputs.</summary>
/// <param name="Read">May throw what a refusal throws and nothing else.</param>
/// <param name="MostBytes">Of an input.</param>
/// <param name="MostAllocated">Memory for one input.</param>
/// <param name="Words">Of its own language.</param>
internal sealed record Target(string Name, Func<IReadOnlyList<byte[]>> Seeds, Action<byte[]> Read, int MostBytes = 4096, long MostAllocated = 64L << 20, params string[] Words);
