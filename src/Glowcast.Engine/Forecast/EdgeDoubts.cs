using System.Collections.Concurrent;
using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>How far a moment of light may be off, as one standard deviation, and what of that it shares with other moments of its half-day.</summary>
/// <param name="OwnS">From the ground: each horizon errs for itself [s].</param>
/// <param name="SightLineS">From the refraction along the ground that day: all horizons of the day err alike [s].</param>
/// <param name="RefractionS">From the refraction of the sun that day: likewise [s].</param>
/// <param name="BeamS">From the haze of the day, where what decides is how strong the light is: likewise [s].</param>
/// <param name="UnknownBeyond">The ground past the edge of the grid towards the sun, where it could still matter; else null.</param>
/// <param name="Horizon">What casts the shade; null where nothing crosses, and where the beam is too weak instead.</param>
internal readonly record struct EdgeDoubt(double OwnS, double SightLineS, double RefractionS, double BeamS, UnknownGround? UnknownBeyond, EdgeHorizon? Horizon)
{
    /// <summary>Nobody begins to the second, and no watch is better: common practice, no source.</summary>
    public const double LeastS = 15;

    /// <summary>All of it [s].</summary>
    public double CombinedS => Math.Sqrt((OwnS * OwnS) + (SightLineS * SightLineS) + (RefractionS * RefractionS) + (BeamS * BeamS) + (LeastS * LeastS));

    /// <summary>By how much ground past the edge of the grid, as high as the highest along it, would move the moment [s]; 0 where none matters.</summary>
    public double UnknownMoveS => UnknownBeyond?.CouldMove.TotalSeconds ?? 0;

    /// <summary>Such ground would move it by more than it is unsure by.</summary>
    public bool IsUnknown => UnknownMoveS > CombinedS;

    /// <param name="isRidge">It is the ridge's light that changes. A beam that turns out too weak where the horizon decides keeps the valley dark for longer, which harms no set.</param>
    public static EdgeDoubt Of(EdgeConfidence confidence, bool isRidge)
    {
        var doubt = isRidge || confidence.Uncertainty.IsByBeam ? confidence.Uncertainty : confidence.Uncertainty with { BeamS = 0, FacingS = 0 };
        return new EdgeDoubt(
            double.Hypot(doubt.TerrainS, doubt.FacingS), doubt.SightLineS, doubt.RefractionS, doubt.BeamS, confidence.UnknownBeyond, doubt.IsByBeam ? null : confidence.Horizon);
    }

    /// <summary>The correlation of the errors of two moments; in time, so that a sun that stands higher than thought, or clearer air, makes light come
    /// earlier and go later.</summary>
    /// <param name="comesAndGoes">At one of them light comes, at the other it goes.</param>
    public static double Correlation(EdgeDoubt a, EdgeDoubt b, bool comesAndGoes)
    {
        var shared = (a.SightLineS * b.SightLineS) + (a.RefractionS * b.RefractionS) + (a.BeamS * b.BeamS);
        return (comesAndGoes ? -1 : 1) * shared / (a.CombinedS * b.CombinedS);
    }
}

/// <summary>The doubts of one day's moments, each asked for once.</summary>
/// <param name="ask">For a moment [s], and whether it is the ridge's light that changes then, or the valley's.</param>
internal sealed class EdgeDoubts(double lengthS, Func<double, bool, EdgeDoubt> ask)
{
    private readonly ConcurrentDictionary<(double Seconds, bool IsRidge), EdgeDoubt> known = new();

    public static EdgeDoubts Of(LightChart chart) => new(chart.Track.LengthS, (seconds, isRidge) =>
        EdgeDoubt.Of(chart.ConfidenceAt(seconds, role => role == (isRidge ? PatchRole.Crest : PatchRole.Valley)), isRidge));

    /// <summary>Of moments that the sun's altitude alone decides.</summary>
    public static EdgeDoubts None { get; } = new(0, (_, _) => default);

    /// <summary>Where the day begins or ends nothing crosses.</summary>
    public EdgeDoubt At(double seconds, bool isRidge) => seconds <= 0 || seconds >= lengthS
        ? default
        : known.GetOrAdd((Math.Round(seconds, 1), isRidge), edge => ask(edge.Seconds, edge.IsRidge));
}
