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
        var row = order.FirstRow == 0 ? "top row" : order.FirstRow == rows - 1 ? "bottom row" : $"row {order.FirstRow + 1} from the top";
        return $"{row} first, {sweep}, {turn}";
    }
}
