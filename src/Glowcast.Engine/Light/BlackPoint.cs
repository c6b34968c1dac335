using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>Whether shade is dark enough beside lit ground to be the picture's black. Common practice, no source.</summary>
public enum BlackPointVerdict
{
    /// <summary>Three stops or more apart.</summary>
    Has,

    /// <summary>One and a half to three.</summary>
    Weak,

    /// <summary>Less: the shade is grey.</summary>
    None,
}

/// <summary>Lit ground against shaded ground at the same distance, through the air between.</summary>
/// <param name="Stops">Between the two as seen; negative where the shade is the brighter.</param>
/// <param name="BareStops">The same without any air.</param>
/// <param name="Distance">Of the ground.</param>
/// <param name="HasWithin">Up to this distance the air leaves three stops; null where there are fewer without any air.</param>
/// <param name="WeakWithin">Up to this distance it leaves one and a half.</param>
public sealed record BlackPoint(double Stops, double BareStops, Length Distance, Length? HasWithin, Length? WeakWithin)
{
    public const double LeastStops = 3;

    public const double LeastWeakStops = 1.5;

    public BlackPointVerdict Verdict => Stops switch
    {
        >= LeastStops => BlackPointVerdict.Has,
        >= LeastWeakStops => BlackPointVerdict.Weak,
        _ => BlackPointVerdict.None,
    };

    /// <param name="litLux">On the lit ground.</param>
    /// <param name="shadedLux">On the shaded ground.</param>
    public static BlackPoint Of(double litLux, double shadedLux, Reflectances reflectances, Airlight air, Length distance)
    {
        var (litCd, shadedCd) = (reflectances.LitRidge * litLux / Math.PI, reflectances.ShadedGround * shadedLux / Math.PI);
        return new BlackPoint(
            Math.Log2(air.Seen(litCd, distance) / air.Seen(shadedCd, distance)), Math.Log2(litCd / shadedCd), distance, Within(LeastStops), Within(LeastWeakStops));

        // From (L_lit t + A (1 − t)) / (L_shade t + A (1 − t)) = q.
        Length? Within(double stops)
        {
            var q = Math.Pow(2, stops);
            var spare = litCd - (q * shadedCd);
            var lifted = air.HorizonCd * (q - 1);
            return spare > 0 && lifted > 0 ? air.DistanceOf(lifted / (spare + lifted)) : null;
        }
    }
}
