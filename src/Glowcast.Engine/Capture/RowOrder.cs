namespace Glowcast.Engine.Capture;

/// <summary>How one row follows another.</summary>
public enum RowOrder
{
    /// <summary>Every row is swept the same way, after turning back.</summary>
    OneWay,

    /// <summary>Every other row is swept backwards.</summary>
    BackAndForth,
}
