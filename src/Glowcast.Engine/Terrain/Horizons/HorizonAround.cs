using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>The kept horizon of one point at whole degrees all around, and between which bounds it runs. Mutable, for one thread; filled for one point
/// after another (<see cref="HorizonTable.AllAround"/>).</summary>
internal sealed class HorizonAround
{
    private const int Lanes = 8;
    private const int Together = 4;

    // So high that a straight line to it is far above any sun at once.
    private const float NeverNear = 1e6f;

    // Room for the last eight.
    private readonly short[] beside = new short[HorizonDirections.Steps + 3 + Lanes];
    private readonly float[] airlessRad = new float[HorizonDirections.Steps + (2 * Lanes)];
    private readonly float[] doubtRad = new float[HorizonDirections.Steps + (2 * Lanes)];
    private readonly float[] highestRad = new float[HorizonDirections.Steps + (2 * Lanes)];
    private readonly float[] lowestRad = new float[HorizonDirections.Steps + (2 * Lanes)];

    /// <summary>At 0° to 360° [rad]; far above the zenith where the sun never stands.</summary>
    public ReadOnlySpan<float> AirlessRad => airlessRad;

    /// <summary>How far it may be off, from each degree to the next one [rad].</summary>
    public ReadOnlySpan<float> DoubtRad => doubtRad;

    /// <summary>Takes in the row of one point in a table.</summary>
    /// <param name="unitRad">One of its units.</param>
    /// <param name="leastDoubtRad">A straight line between two values may be off by this,</param>
    /// <param name="doubtPerBend">and by this share of the bend there.</param>
    public void Fill(ReadOnlySpan<short> row, HorizonDirections directions, float unitRad, float leastDoubtRad, float doubtPerBend)
    {
        var (runs, end) = (directions.Runs, 0);
        foreach (var (step, first, count) in runs)
        {
            airlessRad.AsSpan(end..step).Fill(NeverNear);
            // A value more on one side and two on the other, for the bends.
            var isRound = step + count == HorizonDirections.Steps && runs[0].Step == 0;
            beside[0] = row[Math.Max(0, first - 1)];
            row.Slice(first, count).CopyTo(beside.AsSpan(1));
            for (var i = 0; i < 2; i++) beside[1 + count + i] = isRound ? row[i] : row[Math.Min(row.Length - 1, first + count + i)];
            for (var i = 0; i < count; i += Lanes)
            {
                var (a, b, c, d) = (Wide(i), Wide(i + 1), Wide(i + 2), Wide(i + 3));
                var bend = Vector256.Max(Vector256.Abs(a - b - b + c), Vector256.Abs(b - c - c + d));
                (Vector256.ConvertToSingle(b) * unitRad).CopyTo(airlessRad, step + i);
                ((Vector256.ConvertToSingle(bend) * (unitRad * doubtPerBend)) + Vector256.Create(leastDoubtRad)).CopyTo(doubtRad, step + i);
            }
            end = step + count;
            if (!isRound) doubtRad[end - 1] = 0;
        }
        airlessRad.AsSpan(end).Fill(NeverNear);
        airlessRad[HorizonDirections.Steps] = airlessRad[0];
        Bound();
    }

    private void Bound()
    {
        for (var i = 0; i < HorizonDirections.Steps; i += Lanes)
        {
            var (here, next, doubt) = (Eight(airlessRad, i), Eight(airlessRad, i + 1), Eight(doubtRad, i));
            (Vector256.MaxNative(here, next) + doubt).CopyTo(highestRad, i);
            (Vector256.MinNative(here, next) - doubt).CopyTo(lowestRad, i);
        }
        // In place: what is still to come is not written yet.
        for (var step = 1; step < Together; step *= 2)
        {
            for (var i = 0; i < HorizonDirections.Steps; i += Lanes)
            {
                Vector256.MaxNative(Eight(highestRad, i), Eight(highestRad, i + step)).CopyTo(highestRad, i);
                Vector256.MinNative(Eight(lowestRad, i), Eight(lowestRad, i + step)).CopyTo(lowestRad, i);
            }
        }
    }

    /// <summary>No horizon from the first degree to behind the last one is higher [rad]; ∞ where they go past north.</summary>
    public float HighestRad(int first, int last)
    {
        if (first < 0 || last >= HorizonDirections.Steps - Together) return float.PositiveInfinity;
        var highest = highestRad[Math.Max(first, last - Together + 1)];
        for (var i = first; i <= last - Together; i += Together) highest = Math.Max(highest, highestRad[i]);
        return highest;
    }

    /// <summary>And none lower.</summary>
    public float LowestRad(int first, int last)
    {
        if (first < 0 || last >= HorizonDirections.Steps - Together) return float.NegativeInfinity;
        var lowest = lowestRad[Math.Max(first, last - Together + 1)];
        for (var i = first; i <= last - Together; i += Together) lowest = Math.Min(lowest, lowestRad[i]);
        return lowest;
    }

    private Vector256<int> Wide(int from) => Vector256.WidenLower(Vector128.Create(beside, from).ToVector256());

    private static Vector256<float> Eight(float[] values, int from) => Vector256.Create(values, from);
}
