using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>How the photographer shoots a set; what is not said has the defaults seen here.</summary>
public sealed record SetSettings
{
    public Orientation Orientation { get; init; } = Orientation.Portrait;

    /// <summary>The share of a frame's horizontal field that its neighbour repeats, in [0, 1).</summary>
    public double Overlap { get; init => field = Sensible.Overlap(value, nameof(Overlap)); } = 0.4;

    /// <summary>The share of a frame's vertical field that the next row repeats, in [0, 1).</summary>
    public double RowOverlap { get; init => field = Sensible.Overlap(value, nameof(RowOverlap)); } = 0.4;

    /// <summary>Columns without spare frames; the picture is then as wide as they cover. None: as many as the picture asks for.</summary>
    public int? Columns { get; init => field = value is { } n ? Sensible.AtLeast(1, n, nameof(Columns), "The number of columns") : null; }

    /// <summary>None: as many as the picture asks for.</summary>
    public int? Rows { get; init => field = value is { } n ? Sensible.AtLeast(1, n, nameof(Rows), "The number of rows") : null; }

    /// <summary>Shot beyond each end of every row; a full circle has no ends and takes none.</summary>
    public int SpareFrames { get; init => field = Sensible.AtLeast(0, value, nameof(SpareFrames), "The number of spare frames"); } = 1;

    /// <summary>Safety sets after the first.</summary>
    public int Repeats { get; init => field = Sensible.AtLeast(0, value, nameof(Repeats), "The number of repeats"); } = 1;

    public ShootingOrder Order { get; init; } = new();

    public StepTimes Times { get; init; } = new();

    public Bracket Bracket { get; init; } = Bracket.None;

    /// <summary>How far the axis of rotation may stand from the vertical, in any direction.</summary>
    public Angle LevelError { get; init => field = LessThanUpright(value, nameof(LevelError)); } = Angle.FromDegrees(0.2);

    /// <summary>From the axis of rotation to the no-parallax point of the lens.</summary>
    public Length PupilOffset { get; init => field = Sensible.NotNegative(value, nameof(PupilOffset), "The pupil's offset"); } = Length.FromMillimetres(80);

    /// <summary>Of the user's rotator; none where it turns freely.</summary>
    public IReadOnlyList<Angle> ClickStops { get; init; } = [];

    public double PrintPpi { get; init => field = Sensible.Positive(value, nameof(PrintPpi), "The print's pixels per inch"); } = 300;

    /// <summary>14 is uncompressed raw of most bodies; lossless compression takes about half.</summary>
    public double RawBitsPerPixel { get; init => field = Sensible.Positive(value, nameof(RawBitsPerPixel), "Raw bits per pixel"); } = 14;

    private static Angle LessThanUpright(Angle value, string name) =>
        value.Degrees is >= 0 and < 45
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A level error lies between 0° and 45°; a bubble level leaves about 0.2°.");
}
