namespace MakeSamples;

/// <summary>The cross-section that ice leaves: a flat floor, and sides that steepen outward like a parabola.</summary>
/// <param name="FloorM">Half the width of the floor.</param>
/// <param name="WidthM">From the floor's edge to where the side has risen by half of this.</param>
/// <param name="DepthM">Of the floor below the bed of the stream that was there before.</param>
internal readonly record struct Trough(double FloorM, double WidthM, double DepthM)
{
    /// <summary>Beyond this the side would be steeper than rock stands, and carves no more.</summary>
    public double ReachM => FloorM + (1.8 * WidthM);

    /// <summary>Width grows with the 5/16th power of the land drained; small valleys have hardly any floor.</summary>
    public static Trough Draining(double areaM2)
    {
        var area = areaM2 / 1e6;
        var quarter = Math.Sqrt(Math.Sqrt(area));
        var width = 210 * quarter * Math.Sqrt(Math.Sqrt(quarter));
        return new Trough(FloorM: width * 0.35 * area / (area + 20), width, DepthM: width * 0.10 * area / (area + 3));
    }

    /// <summary>How far above the floor the side stands.</summary>
    public double SideM(double fromMiddleM)
    {
        var away = Math.Max(0, fromMiddleM - FloorM);
        return 0.5 * away * away / WidthM;
    }
}
