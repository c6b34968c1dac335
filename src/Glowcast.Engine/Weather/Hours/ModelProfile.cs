using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>The air over a place as a model has it, fit for the judge of soundings (docs/model.md, W15).</summary>
/// <param name="Diagnosis">What the judge finds in it.</param>
/// <param name="Bracket">The hours of the run that it lies between.</param>
/// <param name="Covers">Of the sky, as the model itself has it.</param>
public sealed record ModelProfile(WeatherRun Run, GeoPoint Point, Instant At, TimeBracket Bracket, CloudDiagnosis Diagnosis, ModelCovers Covers)
{
    /// <summary>Hours farther apart do not show how a deck comes and goes (common practice).</summary>
    public static readonly Duration LongestStep = Duration.FromHours(3);

    /// <summary>Levels farther apart blur the top of a deck by half of that (common practice).</summary>
    private const double CoarseM = 350;

    private const double LookedAtM = 2000;

    public Length ModelGround => Length.FromMetres(Diagnosis.Profile.Surface.HeightM);

    /// <summary>The class, one lower where the hours about it lie far apart.</summary>
    public Likelihood Class => Bracket.Step > LongestStep && Diagnosis.Class > Likelihood.Unlikely ? Diagnosis.Class - 1 : Diagnosis.Class;

    /// <summary>The widest gap between levels in the lowest 2000 m.</summary>
    public Length WidestGap => Length.FromMetres(Gaps().DefaultIfEmpty(0).Max());

    public bool IsCoarse => WidestGap.Metres > CoarseM;

    private IEnumerable<double> Gaps()
    {
        var levels = Diagnosis.Profile.Levels;
        for (var i = 1; i < levels.Count && levels[i - 1].HeightM < levels[0].HeightM + LookedAtM; i++) yield return levels[i].HeightM - levels[i - 1].HeightM;
    }
}

/// <summary>Shares of the sky under cloud, 0 to 1; null where the files do not say.</summary>
public readonly record struct ModelCovers(double? Low, double? Middle, double? High, double? Total);
