using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>A window of one day of a season, to a minute or two.</summary>
/// <param name="RidgeShare">Of the ridge's columns lit in its middle.</param>
/// <param name="ValleyShare">Of the valley lit in its middle; null where none is visible.</param>
/// <param name="SunAltitudeDeg">Apparent, at the lookout in its middle: the lower, the warmer the light.</param>
/// <param name="SunFromViewDeg">Between the middle of the span and the sun, along the horizon.</param>
public sealed record SeasonWindow(Interval Time, double RidgeShare, double? ValleyShare, double SunAltitudeDeg, double SunFromViewDeg);

/// <summary>One day of a season.</summary>
/// <param name="Windows">In order of time.</param>
/// <param name="Score">0 to 1, of the best window; 0 without one.</param>
/// <param name="Reasons">What speaks for and against the day, a sentence each.</param>
public sealed record SeasonDay(LocalDate Date, IReadOnlyList<SeasonWindow> Windows, double Score, IReadOnlyList<string> Reasons);
