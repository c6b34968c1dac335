namespace Glowcast.Engine.Take;

/// <summary>What the numbers in the names of frames say of frames that were deleted.</summary>
/// <remarks>docs/model.md, Take eq. 22.</remarks>
internal sealed class FrameNumbers
{
    private const double MostlyInTurn = 0.6;
    private const int MostMissing = 8;
    private const double AsMany = 3;
    private const double Others = -1;
    private const double NoneDeleted = -2;
    private const double Deleted = -1.5;

    private readonly long[] numbers;
    private readonly bool areInTurn;

    public FrameNumbers(IReadOnlyList<ShotFrame> frames)
    {
        numbers = [.. frames.Select(frame => FrameNames.NumberOf(frame.Name))];
        areInTurn = frames.Count > 3 && Enumerable.Range(1, frames.Count - 1).Count(i => numbers[i] - numbers[i - 1] == 1) >= MostlyInTurn * (frames.Count - 1);
    }

    /// <summary>The logarithm of how likely the names are, where so many places of a set are without a frame between two.</summary>
    public double Odds(int before, int next, int missing)
    {
        if (!areInTurn || next != before + 1) return 0;
        var deleted = numbers[next] - numbers[before] - 1;
        if (deleted is < 0 or > MostMissing) return 0;
        return deleted == missing ? (missing > 0 ? AsMany : 0) : deleted == 0 ? NoneDeleted : missing == 0 ? Deleted : Others;
    }
}
