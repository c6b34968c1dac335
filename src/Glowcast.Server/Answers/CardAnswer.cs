using Glowcast.Engine.Measures;

namespace Glowcast.Server.Answers;

/// <summary>A file that was written of a forecast.</summary>
/// <param name="WhyNone">Why there is no window; null where there is one.</param>
public sealed record CardAnswer(string File, string MediaType, int Bytes, Verdict Verdict, string? WhyNone);
