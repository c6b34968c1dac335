namespace Glowcast.Engine.Capture;

/// <summary>A side of the picture, as seen when facing it.</summary>
public enum Side
{
    Left,
    Right,
}

/// <summary>What is known of the cloud in the picture.</summary>
public enum CloudMotion
{
    Unknown,
    Still,
    FromLeft,
    FromRight,
}

/// <summary>What decides the order of a set.</summary>
/// <param name="Rows">Rows of the set.</param>
/// <param name="RidgeRow">The row that holds the ridge; 0 is the topmost.</param>
/// <param name="LosesLightFirst">The side the direct light leaves first; none when it leaves everywhere at once or stays.</param>
/// <param name="GainsLightFirst">The side the direct light reaches first.</param>
public sealed record OrderSituation(
    int Rows, int RidgeRow = 0, Side? LosesLightFirst = null, Side? GainsLightFirst = null, CloudMotion Cloud = CloudMotion.Unknown);

/// <summary>The order to shoot a set in, with a sentence for each choice made.</summary>
/// <remarks>Rules of practice: the ridge first; begin where the light is lost first, else where it is gained first, else
/// where the cloud comes from; rows one way unless nothing moves.</remarks>
public sealed record OrderChoice(ShootingOrder Order, IReadOnlyList<string> Reasons)
{
    /// <exception cref="ArgumentException">The set has no such row.</exception>
    public static OrderChoice For(OrderSituation situation)
    {
        Sensible.AtLeast(1, situation.Rows, nameof(situation), "The number of rows");
        if (situation.RidgeRow < 0 || situation.RidgeRow >= situation.Rows)
            throw new ArgumentException($"Row {situation.RidgeRow} cannot hold the ridge: the set has {situation.Rows} rows, counted from 0 at the top.", nameof(situation));
        var (direction, why) = Sweep(situation);
        if (situation.Rows == 1) return new OrderChoice(new ShootingOrder(direction), [why]);
        var (rows, whyRows) = RowsOneAfterAnother(situation.Cloud);
        return new OrderChoice(new ShootingOrder(direction, rows, situation.RidgeRow), [why, RidgeFirst(situation), whyRows]);
    }

    private static (SweepDirection Direction, string Why) Sweep(OrderSituation situation) => situation switch
    {
        { LosesLightFirst: { } side } => (From(side), $"Begin on the {Name(side)}: the direct light leaves that side first."),
        { GainsLightFirst: { } side } => (From(side), $"Begin on the {Name(side)}: the direct light reaches that side first."),
        { Cloud: CloudMotion.FromLeft } => (From(Side.Left), "Begin on the left: the cloud comes from that side and would hide it first."),
        { Cloud: CloudMotion.FromRight } => (From(Side.Right), "Begin on the right: the cloud comes from that side and would hide it first."),
        _ => (SweepDirection.LeftToRight, "Sweep from left to right: neither light nor cloud favours a side."),
    };

    private static string RidgeFirst(OrderSituation situation) =>
        $"Shoot row {situation.RidgeRow + 1} from the top first: it holds the ridge, and the picture stands or falls with its light.";

    private static (RowOrder Rows, string Why) RowsOneAfterAnother(CloudMotion cloud) => cloud switch
    {
        CloudMotion.Still => (RowOrder.BackAndForth, "Sweep the rows back and forth: nothing moves between them, and turning back would only take time."),
        CloudMotion.Unknown => (RowOrder.OneWay, "Sweep every row the same way: should cloud move, the time between a frame and the one below it stays shortest."),
        _ => (RowOrder.OneWay, "Sweep every row the same way: the cloud moves, and so the time between a frame and the one below it stays shortest."),
    };

    private static SweepDirection From(Side side) => side == Side.Left ? SweepDirection.LeftToRight : SweepDirection.RightToLeft;

    private static string Name(Side side) => side == Side.Left ? "left" : "right";
}
