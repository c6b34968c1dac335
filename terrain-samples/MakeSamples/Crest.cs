namespace MakeSamples;

/// <summary>A broken line of places that rise fast, falling off to both sides.</summary>
/// <param name="HalfWidthKm">From the line to where the rise has fallen to a quarter.</param>
/// <param name="Line">From south to north; between two places the rise changes evenly.</param>
internal sealed record Crest(double HalfWidthKm, CrestPlace[] Line)
{
    public double Rise(double eastKm, double northKm)
    {
        var best = 0.0;
        for (var i = 1; i < Line.Length; i++)
            best = Math.Max(best, RiseBeside(Line[i - 1], Line[i], eastKm, northKm));
        return best;
    }

    private double RiseBeside(CrestPlace a, CrestPlace b, double eastKm, double northKm)
    {
        var (alongEast, alongNorth) = (b.EastKm - a.EastKm, b.NorthKm - a.NorthKm);
        var projected = ((eastKm - a.EastKm) * alongEast) + ((northKm - a.NorthKm) * alongNorth);
        var t = Math.Clamp(projected / ((alongEast * alongEast) + (alongNorth * alongNorth)), 0, 1);
        var (offEast, offNorth) = (eastKm - a.EastKm - (t * alongEast), northKm - a.NorthKm - (t * alongNorth));
        var away = ((offEast * offEast) + (offNorth * offNorth)) / (HalfWidthKm * HalfWidthKm);
        return (a.Rise + (t * (b.Rise - a.Rise))) / ((1 + away) * (1 + away));
    }
}

/// <param name="Rise">As a share of the fastest on the island; a low value between two high ones is a gap.</param>
internal readonly record struct CrestPlace(double EastKm, double NorthKm, double Rise);
