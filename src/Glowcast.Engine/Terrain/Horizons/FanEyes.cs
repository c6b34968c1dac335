using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>Where eight rays begin that step along one axis of a grid.</summary>
internal readonly struct FanEyes
{
    /// <param name="cells">At most eight, inside the grid; where there are fewer the last one stands for the rest.</param>
    /// <param name="heightsM">Of the eyes.</param>
    public FanEyes(RayAxes axes, ReadOnlySpan<Cell> cells, ReadOnlySpan<float> heightsM)
    {
        (Forward, Major) = (axes.Forward, (int)axes.MajorOf(cells[0]));
        Span<float> ahead = stackalloc float[Vector256<float>.Count];
        Span<int> minor = stackalloc int[Vector256<int>.Count];
        Span<float> part = stackalloc float[Vector256<float>.Count];
        Span<float> heightM = stackalloc float[Vector256<float>.Count];
        LeastAhead = float.PositiveInfinity;
        for (var i = 0; i < ahead.Length; i++)
        {
            var lane = Math.Min(i, cells.Length - 1);
            var across = axes.MinorOf(cells[lane]);
            ahead[i] = (float)(axes.MajorOf(cells[lane]) - Major) * Forward;
            (minor[i], part[i], heightM[i]) = ((int)across, (float)(across - (int)across), heightsM[lane]);
            LeastAhead = Math.Min(LeastAhead, ahead[i]);
        }
        (Ahead, Minor, MinorPart, HeightM) = (Vector256.Create<float>(ahead), Vector256.Create<int>(minor), Vector256.Create<float>(part), Vector256.Create<float>(heightM));
    }

    /// <summary>All eight in one place.</summary>
    public FanEyes(RayAxes axes, Cell cell, float heightM)
    {
        var (along, across) = (axes.MajorOf(cell), axes.MinorOf(cell));
        (Forward, Major) = (axes.Forward, (int)along);
        LeastAhead = (float)(along - Major) * Forward;
        (Ahead, HeightM) = (Vector256.Create(LeastAhead), Vector256.Create(heightM));
        (Minor, MinorPart) = (Vector256.Create((int)across), Vector256.Create((float)(across - (int)across)));
    }

    /// <summary>+1 or −1: the way the majors run as one goes outwards.</summary>
    public int Forward { get; }

    /// <summary>A line of posts near to all of them.</summary>
    public int Major { get; }

    /// <summary>How far past that line, outwards, each one is [cells].</summary>
    public Vector256<float> Ahead { get; }

    /// <summary>The least of these.</summary>
    public float LeastAhead { get; }

    /// <summary>The row of cells, across the axis, in which each one is.</summary>
    public Vector256<int> Minor { get; }

    /// <summary>How far into it [cells].</summary>
    public Vector256<float> MinorPart { get; }

    /// <summary>Heights [m].</summary>
    public Vector256<float> HeightM { get; }
}
