namespace Glowcast.Engine.Capture;

/// <summary>The order in which the frames of a set are shot.</summary>
public sealed record ShootingOrder
{
    /// <param name="firstRow">Shot first; 0 is the topmost. The others follow by their distance from it, the upper one of
    /// two equally far first.</param>
    /// <exception cref="ArgumentOutOfRangeException">The first row is negative.</exception>
    public ShootingOrder(SweepDirection direction = SweepDirection.LeftToRight, RowOrder rows = RowOrder.OneWay, int firstRow = 0) =>
        (Direction, Rows, FirstRow) = (direction, rows, Sensible.AtLeast(0, firstRow, nameof(firstRow), "The first row"));

    /// <summary>Of the first row; with <see cref="RowOrder.BackAndForth"/> the next one is swept the other way.</summary>
    public SweepDirection Direction { get; init; }

    public RowOrder Rows { get; init; }

    public int FirstRow { get; init => field = Sensible.AtLeast(0, value, nameof(FirstRow), "The first row"); }

    /// <summary>Every frame of a set, as it is shot.</summary>
    /// <exception cref="ArgumentException">The set has no such first row.</exception>
    public IEnumerable<(int Row, int Column)> Frames(int columns, int rows)
    {
        if (FirstRow >= rows) throw new ArgumentException($"Row {FirstRow} cannot be shot first: the set has {rows} rows, counted from 0 at the top.");
        return from turn in Enumerable.Range(0, rows).OrderBy(row => Math.Abs(row - FirstRow)).Index()
               from place in Enumerable.Range(0, columns)
               select (turn.Item, LeftToRight(turn.Index) ? place : columns - 1 - place);
    }

    private bool LeftToRight(int turn) =>
        Direction == SweepDirection.LeftToRight ^ (Rows == RowOrder.BackAndForth && turn % 2 == 1);
}
