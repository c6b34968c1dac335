namespace Glowcast.Engine.Capture;

/// <summary>The way a row is swept, as seen when facing the picture; left to right is clockwise.</summary>
public enum SweepDirection
{
    LeftToRight,
    RightToLeft,
}
