using Glowcast.Engine.Capture;

namespace Glowcast.Field.Words;

/// <summary>How a set is shot, in words.</summary>
internal static class SetWords
{
    public static string Order(ShootingOrder order, int rows)
    {
        var sweep = order.Direction == SweepDirection.LeftToRight ? "left to right" : "right to left";
        if (rows == 1) return sweep;
        var turn = order.Rows == RowOrder.OneWay ? "every row that way" : "rows back and forth";
        return $"{Row(order.FirstRow, rows)} first, {sweep}, {turn}";
    }

    /// <param name="row">0 is the topmost of <paramref name="rows"/>.</param>
    public static string Row(int row, int rows) => row == 0 ? "top row" : row == rows - 1 ? "bottom row" : $"row {row + 1} from the top";

    /// <summary>Why a projection is not what a print wants; null where it may be.</summary>
    public static string? NotForPrint(StitchedSize size) => size.IsForPrint
        ? null
        : $"Drawn {size.Stretch:0.0} times as large {(size.Projection == Projection.Rectilinear ? "in its corners" : "at its highest or lowest edge")} as in its middle: not what a print wants.";
}
