using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Take;

/// <summary>The way a row was swept, as its pictures tell: the side of a frame that joins on to the one before it.</summary>
/// <param name="Row">As the frames are numbered.</param>
/// <param name="IsSure">One side joins clearly better than the other.</param>
public sealed record RowSweep(int Row, SweepDirection Direction, bool IsSure);

/// <summary>How the rows of a set followed one another.</summary>
public enum SweptRows
{
    /// <summary>The pictures do not tell.</summary>
    Unknown,

    /// <summary>There is one row.</summary>
    OneRow,

    /// <summary>All were swept the same way.</summary>
    OneWay,

    /// <summary>Every other one was swept backwards.</summary>
    BackAndForth,

    /// <summary>Neither.</summary>
    Mixed,
}

/// <summary>The order a set was shot in, beside that of the plan.</summary>
/// <param name="Sweeps">In the order of shooting; only rows of which it is sure.</param>
/// <param name="IsAsPlanned">Null without a plan, or where the pictures do not tell.</param>
public sealed record SweptOrder(SweptRows Rows, IReadOnlyList<RowSweep> Sweeps, bool? IsAsPlanned)
{
    /// <param name="rowCount">Of the set.</param>
    /// <param name="planned">Of each row that the plan has; empty without a plan.</param>
    public static SweptOrder Of(StripDrift? drift, int rowCount, IReadOnlyDictionary<int, SweepDirection> planned)
    {
        ArgumentNullException.ThrowIfNull(planned);
        var sure = (drift?.Sweeps ?? []).Where(sweep => sweep.IsSure).ToList();
        bool? asPlanned = sure.Count == 0 || planned.Count == 0 ? null : sure.TrueForAll(sweep => planned[sweep.Row] == sweep.Direction);
        return new SweptOrder(KindOf(sure, rowCount), sure, asPlanned);
    }

    private static SweptRows KindOf(List<RowSweep> sure, int rowCount)
    {
        if (sure.Count < rowCount) return SweptRows.Unknown;
        if (rowCount == 1) return SweptRows.OneRow;
        if (sure.TrueForAll(sweep => sweep.Direction == sure[0].Direction)) return SweptRows.OneWay;
        return sure.Zip(sure.Skip(1)).All(pair => pair.First.Direction != pair.Second.Direction) ? SweptRows.BackAndForth : SweptRows.Mixed;
    }
}
