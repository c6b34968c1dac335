using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>When each exposure of a set and of its repeats is made, counted from the start of the first set.</summary>
/// <remarks>
/// docs/model.md, Capture eq. 20 to 25. A set starts with its marker frame: that is time zero. The shutter opens on the
/// first frame when the marker is done and the release delay is over; the camera is then already turned to it and at rest.
/// A set ends when its last exposure is written. Gaps are measured from opening to opening. Immutable.
/// </remarks>
public sealed class SetClock
{
    private const int MostExposures = 100_000;
    private readonly StepTimes times;
    private readonly IReadOnlyList<Duration> shutterTimes;
    private readonly IReadOnlyList<(int Row, int Column, Duration Opens)> frames;

    /// <param name="columns">Frames in a row, spare frames included.</param>
    /// <param name="repeats">Safety sets after the first.</param>
    /// <exception cref="ArgumentException">No column, no row, a negative number of repeats, no such first row, or more
    /// exposures than can be planned.</exception>
    public SetClock(int columns, int rows, ShootingOrder order, StepTimes times, Bracket? bracket = null, int repeats = 0)
    {
        Columns = Sensible.AtLeast(1, columns, nameof(columns), "The number of columns");
        Rows = Sensible.AtLeast(1, rows, nameof(rows), "The number of rows");
        Repeats = Sensible.AtLeast(0, repeats, nameof(repeats), "The number of repeats");
        Order = order;
        RefuseEndless((bracket ?? Bracket.None).Shots);
        this.times = times;
        shutterTimes = (bracket ?? Bracket.None).ShutterTimes(times.Exposure);
        var work = shutterTimes.Aggregate(Duration.Zero, (sum, open) => sum + open + times.Write);
        Step = times.Rotate + times.Settle + times.ReleaseDelay + work;
        RowStep = times.RowChange + Back(order.Rows) + times.Settle + times.ReleaseDelay + work;
        FirstOpening = times.Marker + times.ReleaseDelay;
        FirstToLast = (SweepOfRow * rows) + (RowStep * (rows - 1));
        SetLength = FirstOpening + FirstToLast + work;
        frames = [.. order.Frames(columns, rows).Select((frame, n) => (frame.Row, frame.Column, Opening(n)))];
        Exposures = [.. Enumerable.Range(0, repeats + 1).SelectMany(ExposuresOf)];
    }

    /// <summary>The clock of a laid-out set.</summary>
    public SetClock(SetLayout layout) : this(
        layout.ColumnsWithSpares, layout.Rows, layout.Settings.Order, layout.Settings.Times, layout.Settings.Bracket, layout.Settings.Repeats)
    {
    }

    public int Columns { get; }

    public int Rows { get; }

    public int Repeats { get; }

    public ShootingOrder Order { get; }

    public int FramesPerSet => Columns * Rows;

    /// <summary>From one frame of a row to the next.</summary>
    public Duration Step { get; }

    /// <summary>From the last frame of a row to the first of the next.</summary>
    public Duration RowStep { get; }

    /// <summary>From the first frame of a row to its last.</summary>
    public Duration SweepOfRow => Step * (Columns - 1);

    /// <summary>From the start of a set to the opening of the shutter on its first frame.</summary>
    public Duration FirstOpening { get; }

    /// <summary>From the first frame of a set to its last.</summary>
    public Duration FirstToLast { get; }

    /// <summary>From the marker to the end of the set.</summary>
    public Duration SetLength { get; }

    /// <summary>From the start of the first set to the end of the last repeat.</summary>
    public Duration Total => SetStart(Repeats) + SetLength;

    /// <summary>Between neighbours in a row; zero when there are none.</summary>
    public Duration MaxSideGap => Columns > 1 ? Step : Duration.Zero;

    /// <summary>The longest time between a frame and the one above or below it; zero with one row.</summary>
    public Duration MaxVerticalGap
    {
        get
        {
            var opens = frames.ToDictionary(frame => (frame.Row, frame.Column), frame => frame.Opens);
            return frames.Where(frame => frame.Row > 0)
                .Select(frame => Apart(frame.Opens, opens[(frame.Row - 1, frame.Column)]))
                .DefaultIfEmpty(Duration.Zero).Max();
        }
    }

    /// <summary>Every exposure of every set, in the order they are made.</summary>
    public IReadOnlyList<Exposure> Exposures { get; }

    /// <summary>From the start of the first set to the start of a set.</summary>
    /// <param name="set">0 is the first, <see cref="Repeats"/> the last.</param>
    public Duration SetStart(int set) => (SetLength + times.RepeatGap) * set;

    private void RefuseEndless(int shots)
    {
        var exposures = (double)Columns * Rows * shots * (Repeats + 1.0);
        if (exposures > MostExposures)
            throw new ArgumentException($"{exposures:0} exposures are more than can be planned ({MostExposures} at most); take fewer repeats.");
    }

    private Duration Back(RowOrder rows) => rows == RowOrder.OneWay ? times.Return : Duration.Zero;

    // The n-th frame of the set stands n steps after the first, some of which are row steps.
    private Duration Opening(int n) => FirstOpening + (SweepOfRow * (n / Columns)) + (RowStep * (n / Columns)) + (Step * (n % Columns));

    private IEnumerable<Exposure> ExposuresOf(int set) =>
        frames.SelectMany((frame, number) => ExposuresOf(set, frame.Row, frame.Column, number, SetStart(set) + frame.Opens));

    private IEnumerable<Exposure> ExposuresOf(int set, int row, int column, int number, Duration opens)
    {
        for (var shot = 0; shot < shutterTimes.Count; shot++)
        {
            yield return new Exposure(set, row, column, number, shot, opens, opens + shutterTimes[shot]);
            opens += shutterTimes[shot] + times.Write;
        }
    }

    private static Duration Apart(Duration a, Duration b) => a > b ? a - b : b - a;
}
