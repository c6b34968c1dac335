using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>The frames of a set: how many, where each points, and what the stitched picture will be.</summary>
/// <remarks>docs/model.md, Capture eq. 1 to 8. Immutable.</remarks>
public sealed class SetLayout
{
    private const int MostFrames = 20_000;
    private readonly IReadOnlyList<Angle> pitches;

    /// <exception cref="ArgumentException">The picture cannot be shot this way: a row would look past the zenith or the
    /// nadir, one frame would need a fisheye, neighbours would not meet, or there would be too many frames.</exception>
    public SetLayout(Camera camera, Lens lens, SetSettings settings, Picture picture)
    {
        (Camera, Lens, Settings, Picture) = (camera, lens, settings, picture);
        Field = new FrameField(camera, lens, settings.Orientation);
        Across = Along(picture.Horizontal, Field.Horizontal, settings.Overlap, settings.Columns);
        Up = Along(picture.Vertical, Field.Vertical, settings.RowOverlap, settings.Rows);
        ColumnsWithSpares = WithSpares();
        pitches = RowPitches(Field, Up, picture.CentrePitch);
        RefuseGaps();
        Frames = [.. from row in Enumerable.Range(0, Rows) from column in Enumerable.Range(0, ColumnsWithSpares) select Make(row, column)];
        Clean = CleanRectangle.Trimmed(Field, Across, pitches);
    }

    public Camera Camera { get; }

    public Lens Lens { get; }

    public SetSettings Settings { get; }

    public Picture Picture { get; }

    public FrameField Field { get; }

    /// <summary>The columns, without spare frames.</summary>
    public FrameSteps Across { get; }

    /// <summary>The rows.</summary>
    public FrameSteps Up { get; }

    public int Columns => Across.Count;

    public int Rows => Up.Count;

    public int ColumnsWithSpares { get; }

    public int FramesPerSet => ColumnsWithSpares * Rows;

    /// <summary>How wide the stitched picture is: as wanted, or what the columns cover where their number was given.</summary>
    public Angle Span => Settings.Columns is null ? Picture.Horizontal : Across.Covered;

    /// <summary>The picture's width on the cylinder: f θ, at the scale of a frame's centre.</summary>
    public double WidthPx => Field.FocalLengthPx * Span.Radians;

    /// <summary>Cut at the ends to the height there is between two frames; spare frames left out.</summary>
    public CleanRectangle Clean { get; }

    /// <summary>As wide as the frames without the spare ones allow, and lower for it.</summary>
    public CleanRectangle CleanFull => CleanRectangle.Full(Field, Across, pitches);

    /// <summary>Like <see cref="Clean"/>, when the spare frames are stitched too.</summary>
    public CleanRectangle CleanWithSpares =>
        CleanRectangle.Trimmed(Field, Across.Longer(ColumnsWithSpares - Columns), pitches);

    /// <summary>Row by row from the top, each from left to right, spare frames included.</summary>
    public IReadOnlyList<Frame> Frames { get; }

    /// <summary>The print of the picture's width, or of what the frames leave clean of it, and of the clean rectangle's height.</summary>
    public PrintSize Print => PrintAt(Settings.PrintPpi);

    /// <remarks>Without spare frames the outer ones end where the picture does, and its corners are not shot.</remarks>
    public PrintSize PrintAt(double ppi) => new(Math.Min(WidthPx, CleanWithSpares.WidthPx), Clean.HeightPx, ppi);

    public Sharpness Sharpness => new(Field, Lens);

    /// <summary>Of the settings' pupil offset, from column to column.</summary>
    public Parallax Parallax => new(Field, Across.Step, Settings.PupilOffset);

    /// <summary>Of the settings' level error, over the picture.</summary>
    public Levelling Levelling => new(Field, Across.Step, Span, Settings.LevelError);

    public Frame FrameAt(int row, int column) => Frames[(row * ColumnsWithSpares) + column];

    /// <summary>Whether any frame sees that direction, spare frames included.</summary>
    public bool Covers(Azimuth bearing, Angle altitude) => Frames.Any(frame => frame.Covers(bearing, altitude));

    /// <summary>The altitudes the rows' centres look at, the topmost first.</summary>
    /// <exception cref="ArgumentException">A row looks past the zenith or the nadir.</exception>
    internal static IReadOnlyList<Angle> RowPitches(FrameField field, FrameSteps up, Angle centre)
    {
        Angle[] pitches = [.. Enumerable.Range(0, up.Count).Select(row => centre - up.Offset(row, up.Count))];
        RefuseBeyond(pitches[0] + (field.Vertical / 2), "zenith", "topmost");
        RefuseBeyond(-(pitches[^1] - (field.Vertical / 2)), "nadir", "lowest");
        return pitches;
    }

    private static FrameSteps Along(Angle wanted, Angle field, double overlap, int? count) =>
        count is { } n ? FrameSteps.Of(n, field, overlap) : FrameSteps.Reaching(wanted, field, overlap);

    private static void RefuseBeyond(Angle edge, string pole, string row)
    {
        if (edge.Degrees >= 90)
        {
            throw new ArgumentException(
                $"The {row} row would reach {edge.Degrees:0.#}° and look past the {pole}; take fewer rows, a longer lens, or pitch the rows nearer the horizontal.");
        }
    }

    private int WithSpares()
    {
        var columns = Columns + (Across.Closed ? 0 : 2L * Settings.SpareFrames);
        return columns * Rows <= MostFrames
            ? (int)columns
            : throw new ArgumentException(
                $"{columns} columns in {Rows} rows are more frames than a set can be ({MostFrames} at most); take less overlap, fewer rows or a shorter lens.");
    }

    private void RefuseGaps()
    {
        var side = CleanRectangle.SideEdge(Field, pitches);
        if (Columns + Settings.SpareFrames > 1 && side < Across.Step / 2 * (1 - 1e-12))
        {
            throw new ArgumentException(
                $"Neighbouring frames would not meet: pitched as they are they reach {side.Degrees:0.###}° to each side, and the step is "
                + $"{Across.Step.Degrees:0.###}°; take more overlap.");
        }
    }

    private Frame Make(int row, int column)
    {
        var spare = column < SparesBefore || column >= SparesBefore + Columns;
        return new Frame(Field, row, column, Picture.Centre + Across.Offset(column, ColumnsWithSpares), pitches[row], spare);
    }

    private int SparesBefore => (ColumnsWithSpares - Columns) / 2;
}
