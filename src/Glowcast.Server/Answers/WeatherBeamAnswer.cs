using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>What the cloud of a model leaves of a sunbeam. Distances run along the ground from the lit place towards the sun.</summary>
/// <param name="OpticalDepth">Of all cloud on the way.</param>
/// <param name="Share">e to the minus optical depth: what is left of the direct light.</param>
/// <param name="ClearChance">That the way leads between clouds; null where the files give no cover.</param>
/// <param name="EndsAtKm">How far the beam was followed.</param>
/// <param name="End">Why no farther.</param>
public sealed record WeatherBeamAnswer(
    double OpticalDepth, double Share, double? ClearChance, IReadOnlyList<CrossingAnswer> Crossings, CrossingAnswer? Worst, double EndsAtKm, BeamEnd End,
    double RefractionK, string Centre, string Run, double StepHours, IReadOnlyList<string> Cautions)
{
    public static WeatherBeamAnswer Of(BeamThroughCloud beam, WeatherRun run, TimeBracket bracket, Place from, double refractionK)
    {
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentNullException.ThrowIfNull(run);
        return new WeatherBeamAnswer(
            beam.OpticalDepth, beam.Share, beam.ClearChance, [.. beam.Crossings.Select(crossing => CrossingAnswer.Of(crossing, from))],
            beam.Worst is { } worst ? CrossingAnswer.Of(worst, from) : null, beam.EndsAt.Kilometres, beam.End, refractionK,
            ParameterNames.CentreOf(run.Centre), InstantPattern.General.Format(run.Reference), bracket.Step.TotalHours, [WeatherWords.Caution]);
    }
}

/// <summary>A stretch of the beam within cloud.</summary>
/// <param name="BearingDeg">From the lit place to its middle.</param>
/// <param name="HeightM">Of the beam in its middle.</param>
/// <param name="Cover">Share of the sky, at most; null where the files do not say.</param>
public sealed record CrossingAnswer(
    double FromKm, double ToKm, double FromHeightM, double ToHeightM, double OpticalDepth, double? Cover, double BearingDeg, double DistanceKm, double HeightM, double LatitudeDeg, double LongitudeDeg)
{
    public static CrossingAnswer Of(CloudCrossing crossing, Place from)
    {
        ArgumentNullException.ThrowIfNull(crossing);
        return new CrossingAnswer(
            crossing.From.Kilometres, crossing.To.Kilometres, crossing.FromHeight.Metres, crossing.ToHeight.Metres, crossing.OpticalDepth, crossing.Cover,
            Geodesic.Between(from.Point, crossing.Middle).Bearing.Degrees, (crossing.From + crossing.To).Kilometres / 2, (crossing.FromHeight + crossing.ToHeight).Metres / 2,
            crossing.Middle.LatitudeDeg, crossing.Middle.LongitudeDeg);
    }
}
