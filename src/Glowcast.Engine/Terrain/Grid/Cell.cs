namespace Glowcast.Engine.Terrain;

/// <summary>A place in a grid: fractional column and row.</summary>
internal readonly record struct Cell(double X, double Y);
